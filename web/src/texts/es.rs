//! Spanish, as crews in North America speak it.

use super::{Sentences, Texts};

/// Whose something is: `de` and the article `el` become one word.
fn of(whom: &str) -> String {
    match whom.strip_prefix("el ") {
        Some(rest) => format!("del {rest}"),
        None => format!("de {whom}"),
    }
}

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    caution: "Herramienta de planificación y enseñanza. El diseño, la instalación y el uso de una línea de vida horizontal corresponden a una persona calificada, según los códigos locales y las instrucciones de los fabricantes del equipo. Tenga un plan de rescate listo antes de usarla.",
    problems_heading: "Algunos datos no se pueden usar",
    view_checks: "Revisiones",
    view_setup: "Montaje",
    share: "Compartir",
    undo: "Deshacer",
    redo: "Rehacer",
    demo: "Cargar el ejemplo",
    units_label: "Unidades",
    language_label: "Idioma",
    units_metric: "m · kN",
    units_us: "ft-in · lbf",
    play: "Soltar",
    pause: "Pausa",
    step_forward: "Un paso adelante",
    step_back: "Un paso atrás",
    to_lowest: "Punto más bajo",
    to_start: "Volver al reposo",
    speed_label: "Velocidad",
    speed_true: "velocidad real",
    speed_quarter: "1/4",
    speed_tenth: "1/10",
    time_label: "Tiempo desde que cae el primer trabajador",
    inputs_heading: "Datos",
    answer_heading: "La respuesta",
    stack_heading: "La suma de alturas",
    now_heading: "Ahora",
    methods_heading: "Dos métodos lado a lado",
    loading: "Cargando el cálculo…",
    crashed: "El cálculo se detuvo de forma inesperada. Vuelva a cargar la página; el enlace en la barra de direcciones conserva el caso.",
    reload: "Cargar de nuevo",
    page_skip: "Ir a la respuesta",
    page_close: "Cerrar",
    link_unread: "No se pudo leer este enlace.",
    link_advice: "Puede que le falte una parte o que haya cambiado en el camino. Pida otra vez el enlace, o el caso en un archivo.",
    link_other: "El caso de la página no es el de este enlace.",
    link_text: "El enlace como se recibió",
    page_purpose: "Hasta dónde baja un trabajador que cae en una línea de vida horizontal temporal, y si los pies quedan libres de lo que hay abajo.",
    page_drop: "La caída, dibujada a escala",
    page_player: "Reproducción de la caída",
    page_keys: "Espacio: soltar o pausar. Flechas: un paso. Inicio: en reposo. Fin: colgado en reposo. L: punto más bajo.",
    page_hanging: "Colgado en reposo",
    page_more: "Más datos",
    page_charts: "Fuerza y tensión en el tiempo",
    page_later_failed: "No se pudieron cargar las revisiones, las gráficas ni los enlaces. Revise la conexión y vuelva a cargar la página.",
    invented: "ejemplo inventado",
    stale: "Estos números son de los últimos datos sin errores, no de lo que hay ahora en los campos.",
    word_spare: "de sobra",
    word_short: "que faltan",
    word_unknown: "no se puede decir",
    not_computed: "todavía no se ha calculado nada",
    link_no_result: "Sin resultado: no se pudo leer el enlace.",
    rounding_note: "La altura requerida y las fuerzas se redondean hacia arriba; el espacio bajo los pies y las relaciones, hacia abajo. Los renglones suman tal como se muestran.",
    nobody_falls: "En este caso no cae nadie.",
    why_absorber: "los que caen no se detienen todos en el mismo instante, y la masa del propio cable frena la línea mientras el amortiguador se despliega",
    why_rebound_more: ", cuando la línea y los demás regresan y el amortiguador se despliega otra vez; el balance de energía conoce una sola detención para todos",
    why_balance: "el balance de energía supone que todos los que caen se detienen en el mismo instante y que la línea no pierde nada",
    why_balance_staggered: "el balance de energía no conoce los tiempos y supone que todos se detienen en el mismo instante; aquí caen uno tras otro",
    energy_balance: "balance de energía",
    time_history: "historia en el tiempo",
    line_deflection: "deflexión de la línea",
    lanyard: "eslinga",
    self_retracting: "línea retráctil, trabada",
    absorber_extension: "amortiguador de caída",
    harness_stretch: "estiramiento del arnés",
    dring_to_sole: "del anillo D a la suela",
    margin: "margen",
    required: "requerido bajo la línea",
    available: "medido bajo la línea",
    footroom: "espacio bajo los pies",
    arrest_force: "fuerza de detención",
    line_tension: "tensión de la línea",
    inline_extension: "amortiguador en la línea, extensión",
    soles_below_line: "suelas bajo la línea",
    phase_standing: "de pie",
    phase_free_fall: "en caída libre",
    phase_arrest: "deteniéndose",
    phase_lowest: "en el punto más bajo",
    phase_rebound: "en el rebote",
    phase_hanging: "colgado",
    mark_peak_tension: "mayor tensión de la línea",
    below_vehicle: "camión o máquina",
    below_structure: "viga o losa inferior",
    below_access: "escalera o andamio",
    below_stack: "material apilado",
    below_other: "otro",
    doubt_other: "el cálculo avisa de una duda que esta página no conoce",
    shared_same: "El mismo resultado que cuando se compartió.",
    scene_line: "línea",
    scene_beam_top: "sobre la viga",
    scene_datum: "suelo",
    scene_tension: "línea {}",
    scene_spare: "sobran {}",
    scene_short: "faltan {}",
    scene_required: "requerido",
    scene_available: "medido",
    allowance: "tolerancia del modelo",
    tolerance_soft: "tolerancias, lado blando",
    tolerance_stiff: "tolerancias, lado rígido",
    tolerance_mixed: "tolerancias, lado mixto",
    tolerance_undamped: "línea sin amortiguación",
    tolerance_crew: "diferencias en la cuadrilla",
    tolerance_and_crew: "tolerancias y cuadrilla",
    first_answer: "Primer número, con la cuadrilla tal como se ingresó. Aún se calculan las pequeñas diferencias entre trabajadores.",
    corner_nominal: "como se dieron",
    corner_soft: "lado blando",
    corner_stiff: "lado rígido",
    corner_mixed: "lado mixto",
    corner_undamped: "línea sin amortiguación",
    off_absorber_weak: "amortiguadores más débiles",
    off_absorber_strong: "amortiguadores a su fuerza máxima",
    off_rope_soft: "cable más blando",
    off_rope_stiff: "cable más rígido",
    off_ends_soft: "extremos más blandos",
    off_ends_stiff: "extremos más rígidos",
    off_pretension_low: "menos tensión inicial",
    off_pretension_high: "más tensión inicial",
    off_mass: "trabajadores más pesados",
    off_inline_early: "amortiguador en la línea que cede antes",
    off_inline_late: "amortiguador en la línea que cede después",
    nominal_governs: "Ningún lado de las tolerancias pide más que los datos como se dieron.",
    checked_span_count: "número de claros",
    checked_end_stiffness: "rigidez de un extremo con su poste",
    checked_users: "trabajadores que caen",
    checked_delay: "tiempo entre la primera caída y la última",
    checked_self_retracting: "trabajadores con retráctil",
    checked_offset: "distancia al conector",
    checked_deflection: "flecha de la línea entre su claro",
    checked_slope: "pendiente de la línea junto a un conector",
    checked_nearness: "distancia de un conector al siguiente, en tramos de la línea calculada (unos 0.45 m de cable)",
    checked_span: "largo de un claro",
    checked_pretension: "pretensión",
    checked_axial_stiffness: "rigidez EA del cable",
    checked_mass_per_length: "masa del cable por largo",
    checked_inline_force: "fuerza de cedencia del amortiguador en la línea",
    checked_inline_extension: "despliegue del amortiguador en la línea",
    checked_damping: "amortiguación de la línea",
    checked_mass: "masa de un trabajador",
    checked_free_fall: "caída libre",
    checked_gear_stiffness: "rigidez de la cinta y del arnés",
    checked_absorber_force: "fuerza media de un amortiguador personal",
    checked_absorber_extension: "despliegue máximo de un amortiguador personal",
    checked_locked_stiffness: "rigidez de un amortiguador personal ya agotado",
    checked_other: "otra magnitud",
    say: Sentences {
        worker: |n| format!("el trabajador {n}"),
        worker_label: |n| format!("Trabajador {n}"),
        spare: |amount, worker, margin| {
            format!("Sobran {amount} bajo {worker}, con el margen de {margin} incluido.")
        },
        short: |amount, worker, required, available| {
            format!(
                "Faltan {amount}: {worker} necesita {required} bajo la línea, y hay {available}."
            )
        },
        cannot_say: |reason| format!("No se puede decir: {reason}."),
        margin_not_kept: |clear, margin| {
            format!(
                "Según este cálculo las suelas se detienen {clear} arriba de lo que hay abajo, pero no se conserva el margen de {margin}."
            )
        },
        soles_too_low: |depth| {
            format!("Las suelas bajarían {depth} más que la parte alta de lo que hay abajo.")
        },
        beyond_breaking: |tension, breaking| {
            format!(
                "la tensión de la línea, {tension}, pasa de la fuerza de rotura del cable, {breaking}"
            )
        },
        too_steep: |slope, most| {
            format!(
                "la línea se inclina más ({slope}) de lo que un movimiento vertical puede describir ({most}), y la respuesta no sería la de la línea"
            )
        },
        absorber_used_up: |worker, force| {
            let whose = of(worker);
            format!("se agota el amortiguador {whose} y se vuelve rígido: {force}")
        },
        inline_used_up: |tension| {
            format!("se agota el amortiguador en la línea y se vuelve rígido: {tension}")
        },
        strikes: |worker, time, speed| {
            format!("{worker} cae sobre lo que hay abajo a los {time}, a {speed}")
        },
        not_finished: |worker| {
            format!(
                "{worker} sigue bajando cuando termina el tiempo simulado; aumente el tiempo simulado"
            )
        },
        fall_together: |falling, all| match (falling, all) {
            (1, 1) => "Cae el único trabajador.".to_owned(),
            (1, _) => format!("Cae uno de {all}; los demás se quedan de pie."),
            _ if falling == all => format!("Caen los {all} a la vez."),
            _ => format!("Caen {falling} de {all} a la vez; los demás se quedan de pie."),
        },
        fall_in_turn: |falling, all, times| {
            if falling == all {
                format!("Caen los {all} uno tras otro, a los {times}.")
            } else {
                format!(
                    "Caen {falling} de {all} uno tras otro, a los {times}; los demás se quedan de pie."
                )
            }
        },
        history_governs: |more, why| {
            format!(
                "Rige la historia en el tiempo: {more} más que el balance de energía, porque {why}."
            )
        },
        why_overshoot: |rope| {
            format!(
                "la masa del propio cable ({rope}) lleva la línea más allá de la forma en que las fuerzas se equilibran"
            )
        },
        why_rebound: |time| format!("el punto más bajo llega después de un rebote, a los {time}"),
        balance_governs: |more, why| {
            format!(
                "Rige el balance de energía: {more} más que la historia en el tiempo, porque {why}."
            )
        },
        methods_agree: |step| {
            format!("El balance de energía y la historia en el tiempo coinciden dentro de {step}.")
        },
        of_worker: |label, worker| {
            format!("{label}, {}", worker.strip_prefix("el ").unwrap_or(worker))
        },
        mark_taut: |worker| format!("{worker}: equipo tenso"),
        mark_lowest: |worker| format!("{worker}: punto más bajo"),
        shared_differs: |was, is| {
            format!(
                "No es el resultado que se compartió, aunque el modelo es el mismo: el espacio bajo los pies era {was}, es {is}."
            )
        },
        shared_changed: |was, is| {
            format!(
                "El modelo cambió desde que se compartió: el espacio bajo los pies era {was}, es {is}."
            )
        },
        model: |version, fingerprint| format!("modelo {version}, huella {fingerprint}"),
        describe_line: |length, spans, height, top| {
            format!(
                "Una línea de vida de {length} en claros de {spans}, a {height} sobre la viga; la parte alta de la viga está a {top} del suelo."
            )
        },
        describe_below: |kind, from, to, height| {
            format!("Abajo, de {from} a {to}: {kind}, {height} de alto.")
        },
        describe_standing: |worker, place| format!("{worker}, en {place}, se queda de pie."),
        describe_fall: |worker, place, free, force, time, depth| {
            format!(
                "{worker}, en {place}, cae {free} libre, recibe como máximo {force}, y en el punto más bajo, a los {time}, tiene las suelas {depth} bajo la línea."
            )
        },
        describe_hanging: |worker, above| {
            format!("{worker} queda colgado con las suelas {above} arriba de lo que hay abajo.")
        },
        spoken_line: |time, tension| format!("A los {time}: tensión de la línea {tension}."),
        spoken_worker: |worker, phase, force| format!("{worker} {phase}, {force}."),
        corner_governs: |more, corner, list| {
            format!(
                "Rige el {corner} de las tolerancias ({list}): {more} más que los datos como se dieron."
            )
        },
        undamped_governs: |more| format!("Rige la línea sin su amortiguación: {more} más."),
        crew_one: |worker, late, mass| {
            format!(
                "En ese cálculo {worker} cae {late} más tarde y pesa {mass} más de lo ingresado."
            )
        },
        crew_all: |late, mass| {
            format!(
                "En ese cálculo todos pesan {mass} más de lo ingresado y caen hasta {late} más tarde."
            )
        },
        crew_beyond: |size| {
            format!("Añadido por otras pequeñas diferencias en la cuadrilla: {size}.")
        },
        crew_last: |size| {
            format!(
                "Cuando caen varias personas, los últimos {size} no se pueden asegurar: los deciden centésimas de segundo."
            )
        },
        tension_range: |most, corner, least, greatest, balance| {
            format!(
                "Tensión de la línea hasta {most} ({corner}); como se dieron los datos, de {least} a {greatest}, con y sin la amortiguación de la línea, y {balance} por el balance de energía, que no cuenta la masa del cable."
            )
        },
        corner_list: |corner, list| format!("{corner}: {list}"),
        corner_used_up: |corner| {
            format!("en el {corner} de las tolerancias se agota un amortiguador y se vuelve rígido")
        },
        corner_breaks: |tension, breaking| {
            format!(
                "con las tolerancias la tensión de la línea, {tension}, pasa de la fuerza de rotura del cable, {breaking}"
            )
        },
        corner_contact: |worker| format!("con las tolerancias {worker} cae sobre lo que hay abajo"),
        swing: |worker, reach, drop| {
            format!(
                "{worker} cae a {reach} del conector y regresa en péndulo debajo de él, bajando {drop}; eso no es un tramo de la suma de alturas, y lo que estorbe en el péndulo no entra en este cálculo"
            )
        },
        edge_contact: |worker| {
            let whose = of(worker);
            format!(
                "el equipo {whose} se apoya en el borde de la viga: debe estar hecho para eso, y el borde no entra en este cálculo"
            )
        },
        describe_pulled: |height| format!("La línea baja ahí hasta {height} sobre la viga."),
        ledger_open: |off| {
            format!("las energías del movimiento calculado no cuadran: difieren en {off} %")
        },
        swings_below_stack: |worker, deeper| {
            format!(
                "el equipo de {worker} está desenrollado hacia un lado: su péndulo termina {deeper} más abajo de lo que cuenta la suma de alturas"
            )
            .replace(" de el ", " del ")
        },
        retracting_below: |worker, below, free_fall| {
            let whose = of(worker);
            format!(
                "la línea autorretráctil {whose} está enganchada {below} más abajo que el anillo D, así que la caída libre es de {free_fall}. La mayoría de estas líneas se prueban con menos. Solo las instrucciones del fabricante dicen si esta está hecha para eso"
            )
        },
        free_fall_raised: |worker, given, taken| {
            let whose = of(worker);
            format!(
                "la caída libre {whose} que se ingresó, {given}, termina antes de que el anillo D baje hasta la línea. Ahí nada puede estar tenso; se usa {taken} en su lugar"
            )
        },
        beyond_reach: |worker, offset, reach| {
            format!(
                "{worker} está a {offset} del conector, y su cabo solo alcanza {reach} hacia un lado"
            )
        },
        edge_slide: |worker, slide| {
            format!("al regresar en péndulo {worker}, el equipo se arrastra {slide} por el borde")
        },
        line_on_edge: |worker| {
            format!(
                "junto a {worker} la línea baja hasta la viga y se apoya en ella; la viga bajo la línea no entra en este cálculo"
            )
        },
        outside_checked: |list| {
            format!(
                "fuera de lo que se comprobó del cálculo: {list}; ahí nada independiente respalda el número"
            )
        },
        checked_range: |label, value, least, most| {
            format!("{label} {value} (comprobado de {least} a {most})")
        },
        checked_from: |label, value, least| format!("{label} {value} (comprobado desde {least})"),
        checked_none: |label, value| format!("{label} {value} (nada comprobado)"),
    },
};
