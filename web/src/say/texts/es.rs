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
    line_room: "Espacio donde están",
    line_strength: "Resistencia",
    line_anywhere: "En toda la línea",
    still_looking: "buscando",
    word_deployed: "totalmente desplegado",
    an_absorber: "un amortiguador",
    word_breaks: "el cable se rompería",
    show_worst: "Poner ahí a la cuadrilla",
    free_fall: "caída libre",
    deceleration_distance: "distancia de desaceleración",
    check_no_contact: "sin contacto, pies bajo la línea",
    check_system_factor: "sistema completo",
    check_anchorage_alternative: "anclaje, 5,000 lbf (22.2 kN) por trabajador",
    check_lanyard_strength: "eslinga, resistencia requerida",
    check_self_retracting_strength: "retráctil (SRL), resistencia requerida",
    check_twice_impact_energy: "eslinga o retráctil, doble energía de impacto",
    check_user_mass: "peso con herramienta",
    check_en_arrest_force: "fuerza de detención junto al límite de prueba de EN 355",
    check_en_extension: "extensión del amortiguador junto al límite de prueba de EN 355",
    check_en_retractable_force: "fuerza de detención junto al límite de prueba de EN 360",
    check_en_retractable_distance: "distancia de detención junto al límite de prueba de EN 360",
    check_en_users: "usuarios junto al número que cubre EN 795",
    check_footroom: "altura libre requerida",
    check_rope: "cable",
    check_termination: "terminación del cable",
    check_end_anchorage: "anclaje de la línea de vida",
    check_post_moment: "momento en la base del poste",
    check_post_compression: "compresión del poste",
    check_tieback: "tirante",
    check_tieback_anchorage: "anclaje del tirante",
    check_intermediate_post: "carga hacia abajo",
    check_intermediate_along: "fuerza si el cable se traba",
    subject_left_end: "extremo izquierdo",
    subject_right_end: "extremo derecho",
    caution: "Solo para planificar y enseñar. Una línea de vida horizontal se diseña, se instala y se usa bajo la supervisión de una persona calificada, según los códigos locales y las instrucciones de los fabricantes. Tenga listo un plan de rescate antes de que alguien se enganche.",
    problems_heading: "Corrija estos datos",
    view_checks: "Verificaciones",
    view_setup: "Montaje",
    share: "Compartir",
    undo: "Deshacer",
    redo: "Rehacer",
    demo: "Cargar el ejemplo",
    units_label: "Unidades",
    language_label: "Idioma",
    units_metric: "m · kN",
    units_us: "ft-in · lbf",
    play: "Iniciar la caída",
    pause: "Pausa",
    step_forward: "Un paso adelante",
    step_back: "Un paso atrás",
    to_lowest: "Punto más bajo",
    to_start: "Volver al inicio",
    speed_label: "Velocidad",
    speed_true: "tiempo real",
    speed_quarter: "1/4",
    speed_tenth: "1/10",
    time_label: "Tiempo desde la primera caída",
    inputs_heading: "Datos",
    answer_heading: "La respuesta",
    stack_heading: "La suma de alturas",
    now_heading: "Ahora",
    methods_heading: "Dos formas: a mano y paso a paso",
    loading: "Cargando el cálculo…",
    crashed: "El cálculo se detuvo de forma inesperada. Recargue la página; el enlace en la barra de direcciones conserva su caso.",
    reload: "Recargar",
    page_skip: "Ir a la respuesta",
    page_close: "Cerrar",
    link_unread: "No se pudo leer este enlace.",
    link_advice: "Puede que le falte una parte o que haya cambiado en el camino. Pida otra vez el enlace, o el caso en un archivo.",
    link_other: "El caso de la página no es el de este enlace.",
    link_text: "El enlace como se recibió",
    page_purpose: "Cuánto baja una persona que cae en una línea de vida horizontal temporal y cuánto espacio le queda bajo los pies.",
    page_drop: "La caída, dibujada a escala",
    page_player: "Reproducción de la caída",
    page_keys: "Espacio: iniciar o pausar. Flechas: un paso. Inicio: volver al inicio. Fin: colgando. L: punto más bajo. 1 a 5: secciones. T: charla. Ctrl+Z: deshacer.",
    page_hanging: "Colgando",
    page_more: "Más datos",
    page_charts: "Fuerza y tensión en el tiempo",
    page_coming: "Aún se cargan las verificaciones, las gráficas y los enlaces. Los cambios que haga ahora se calculan al terminar la carga.",
    page_later_failed: "No se pudieron cargar las verificaciones, las gráficas ni los enlaces. Revise la conexión y recargue la página.",
    page_doors: "Secciones",
    page_door_plan: "Planear",
    page_door_decide: "Decidir",
    page_door_explain: "Explicar",
    page_door_site: "En obra",
    page_door_file: "Archivo",
    page_part_drop: "La caída",
    page_part_inputs: "Línea y cuadrilla",
    page_part_charts: "Gráficas",
    page_about: "Sobre esta respuesta",
    page_crew_all: "todos",
    page_crew_at: "en",
    page_crew_mass: "peso",
    page_crew_gear: "eslinga",
    page_crew_falls: "cae",
    page_caution: "Mostrar toda la advertencia",
    invented: "ejemplo inventado, no es una obra real",
    stale: "Estos números son de los últimos datos válidos, no de lo que está escrito ahora. Corrija primero los datos marcados.",
    word_spare: "libres",
    word_short: "que faltan",
    word_unknown: "sin resultado",
    not_computed: "todavía no se ha calculado nada",
    link_no_result: "Sin resultado: no se pudo leer el enlace.",
    rounding_note: "Redondeo del lado prudente: altura libre requerida y fuerzas hacia arriba; espacio bajo los pies y relaciones hacia abajo. Los renglones suman tal como se muestran.",
    nobody_falls: "En este caso no cae nadie.",
    soles_touch: "Según este cálculo la persona golpea el nivel inferior.",
    energy_balance: "balance de energía",
    time_history: "historia en el tiempo",
    line_deflection: "deflexión de la línea",
    lanyard: "eslinga",
    self_retracting: "retráctil (SRL), trabada",
    absorber_extension: "amortiguador de caída",
    harness_stretch: "estiramiento del arnés",
    dring_to_sole: "del anillo D a la suela",
    margin: "margen",
    required: "altura libre requerida bajo la línea",
    available: "altura libre disponible bajo la línea",
    footroom: "espacio bajo los pies",
    arrest_force: "fuerza de detención",
    line_tension: "tensión de la línea",
    inline_extension: "extensión del amortiguador de la línea",
    inline_extension_both: "extensión de los amortiguadores de la línea, suma de ambos extremos",
    soles_below_line: "pies bajo la línea",
    phase_standing: "de pie",
    phase_free_fall: "en caída libre",
    phase_arrest: "deteniéndose",
    phase_lowest: "en el punto más bajo",
    phase_rebound: "en el rebote",
    phase_hanging: "colgando",
    mark_peak_tension: "tensión máxima de la línea",
    below_vehicle: "camión o equipo",
    below_structure: "viga o losa inferior",
    below_access: "escalera o andamio",
    below_stack: "material apilado",
    below_other: "otro",
    doubt_other: "el cálculo dio un aviso que esta página no conoce; recargue la página",
    shared_same: "El mismo resultado que cuando se compartió.",
    scene_line: "línea",
    scene_beam_top: "tope de viga",
    scene_datum: "suelo",
    scene_tension: "línea {}",
    scene_spare: "{} libres",
    scene_short: "faltan {}",
    scene_required: "requerido",
    scene_available: "disponible",
    allowance: "incremento por el modelo",
    tolerance_soft: "tolerancias, lado blando",
    tolerance_stiff: "tolerancias, lado rígido",
    tolerance_mixed: "tolerancias, lado mixto",
    tolerance_undamped: "línea sin fricción interna",
    tolerance_crew: "diferencias en la cuadrilla",
    tolerance_and_crew: "tolerancias y cuadrilla",
    first_answer: "Primer número, con la cuadrilla tal como se anotó. Aún se calculan las pequeñas diferencias.",
    corner_nominal: "datos tal cual",
    corner_soft: "lado blando",
    corner_stiff: "lado rígido",
    corner_mixed: "lado mixto",
    corner_undamped: "línea sin fricción interna",
    off_absorber_weak: "amortiguadores más débiles",
    off_absorber_strong: "amortiguadores a su fuerza máxima",
    off_absorber_stronger: "amortiguadores más fuertes",
    off_rope_soft: "cable que se estira más",
    off_rope_stiff: "cable más rígido",
    off_ends_soft: "extremos más flexibles",
    off_ends_stiff: "extremos más rígidos",
    off_friction: "línea sin fricción interna",
    off_pretension_low: "menos tensión inicial",
    off_pretension_high: "más tensión inicial",
    off_mass: "trabajadores más pesados",
    off_inline_early: "amortiguador de la línea que se despliega antes",
    off_inline_late: "amortiguador de la línea que se despliega después",
    given_governs: "Rigen los datos tal cual",
    undamped_governs: "Rige la línea sin fricción interna",
    checked_span_count: "número de claros",
    checked_end_stiffness: "rigidez de un poste extremo con su tirante",
    checked_users: "trabajadores que caen",
    checked_delay: "tiempo entre la primera caída y la última",
    checked_self_retracting: "trabajadores con retráctil",
    checked_offset: "distancia al conector",
    checked_deflection: "deflexión de la línea ÷ claro",
    checked_slope: "pendiente de la línea junto a un conector",
    checked_nearness: "distancia entre conectores vecinos, en segmentos del cálculo",
    checked_span: "largo de un claro",
    checked_pretension: "tensión inicial",
    checked_axial_stiffness: "rigidez EA del cable",
    checked_mass_per_length: "masa del cable por longitud",
    checked_inline_force: "fuerza de despliegue del amortiguador de la línea",
    checked_inline_extension: "extensión máxima del amortiguador de la línea",
    checked_damping: "fricción interna de la línea (amortiguamiento)",
    checked_mass: "peso de un trabajador",
    checked_free_fall: "caída libre",
    checked_gear_stiffness: "rigidez de la cinta y del arnés",
    checked_absorber_force: "fuerza promedio de un amortiguador personal",
    checked_absorber_extension: "extensión máxima de un amortiguador personal",
    checked_locked_stiffness: "rigidez de un amortiguador personal ya agotado",
    checked_other: "otra magnitud",
    say: Sentences {
        under: |worker, margin| format!("bajo {worker}, además del margen de {margin}"),
        needs: |worker, required, available| {
            format!("{worker} necesita {required} de altura libre bajo la línea y hay {available}")
        },
        of_ratio: |required| format!("de {required} requerida"),
        parts_open: |n| {
            if n == 1 {
                ("1 parte".to_owned(), "sin resistencia anotada")
            } else {
                (format!("{n} partes"), "sin resistencia anotada")
            }
        },
        limits_open: |n| {
            if n == 1 {
                ("1 límite".to_owned(), "no se cumple")
            } else {
                (format!("{n} límites"), "no se cumplen")
            }
        },
        answer_line: |heading, number, word| format!("{heading}: {number} {word}"),
        subject_post: |n| format!("poste intermedio {n}"),
        worker: |n| format!("el trabajador {n}"),
        worker_label: |n| format!("Trabajador {n}"),
        spare: |amount, worker, margin| {
            format!("Quedan {amount} libres bajo {worker}, además del margen de {margin}.")
        },
        short: |amount, worker, required, available| {
            format!(
                "Faltan {amount}: {worker} necesita {required} de altura libre bajo la línea y hay {available}."
            )
        },
        cannot_say: |reason| format!("Sin resultado: {reason}."),
        margin_not_kept: |clear, margin| {
            format!(
                "Según este cálculo los pies se detienen {clear} arriba del nivel inferior: menos que el margen de {margin}."
            )
        },
        soles_too_low: |depth| {
            format!(
                "Según este cálculo la persona golpea el nivel inferior: los pies terminarían {depth} por debajo de él."
            )
        },
        beyond_breaking: |tension, breaking| {
            format!(
                "el cable se rompería (tensión de la línea {tension}, resistencia a la rotura {breaking})"
            )
        },
        too_steep: |slope, most| {
            format!(
                "la línea queda más inclinada ({slope}) de lo que este cálculo puede describir ({most})"
            )
        },
        absorber_used_up: |worker, force| {
            let whose = of(worker);
            format!(
                "se agota el amortiguador {whose} y se pone rígido: fuerza de detención {force}"
            )
        },
        inline_used_up: |tension| {
            format!(
                "se agota el amortiguador de la línea y se pone rígido: tensión de la línea {tension}"
            )
        },
        strikes: |worker, time, speed| {
            format!("{worker} golpea el nivel inferior a los {time}, a {speed}")
        },
        not_finished: |worker, longest| {
            let then = if longest {
                "no se puede simular más tiempo y no se sabe hasta dónde baja"
            } else {
                "aumente el tiempo simulado"
            };
            format!("{worker} sigue bajando cuando termina el tiempo simulado; {then}")
        },
        fall_together: |falling, all| match (falling, all) {
            (1, 1) => "Cae el único trabajador.".to_owned(),
            (1, _) => format!("Cae uno de {all}; los demás se quedan de pie."),
            _ if falling == all => format!("Caen los {all} a la vez."),
            _ => format!("Caen {falling} de {all} a la vez; los demás se quedan de pie."),
        },
        fall_in_turn: |falling, all| {
            if falling == all {
                format!("Caen los {all} uno tras otro")
            } else {
                format!("Caen {falling} de {all} uno tras otro")
            }
        },
        fall_at: |times, others| {
            let stay = if others {
                "; los demás se quedan de pie"
            } else {
                ""
            };
            format!(", a los {times}{stay}.")
        },
        of_worker: |label, worker| {
            format!("{label}, {}", worker.strip_prefix("el ").unwrap_or(worker))
        },
        mark_taut: |worker| format!("{worker}: equipo tenso"),
        mark_lowest: |worker| format!("{worker}: punto más bajo"),
        shared_differs: |was, is| {
            format!(
                "Este resultado no coincide con el compartido, aunque el modelo es el mismo: el espacio bajo los pies era {was}, ahora es {is}. No se fíe de ninguno hasta saber por qué."
            )
        },
        shared_changed: |was, is| {
            format!(
                "El modelo cambió desde que se compartió: el espacio bajo los pies era {was}, ahora es {is}."
            )
        },
        model: |version, fingerprint| {
            format!("modelo {version}, código del resultado {fingerprint}")
        },
        describe_line: |length, spans, height, top| {
            format!(
                "Una línea de vida de {length} en claros de {spans}, a {height} sobre la viga; el tope de la viga está a {top} del suelo."
            )
        },
        describe_below: |kind, from, to, height| {
            format!("Abajo, de {from} a {to}: {kind}, {height} de alto.")
        },
        describe_standing: |worker, place| format!("{worker}, en {place}, se queda de pie."),
        describe_fall: |worker, place, free, force, time, depth| {
            format!(
                "{worker}, en {place}, tiene una caída libre de {free} y recibe como máximo {force}; en el punto más bajo, a los {time}, tiene los pies {depth} bajo la línea."
            )
        },
        describe_hanging: |worker, above| {
            format!("{worker} queda colgando con los pies {above} arriba del nivel inferior.")
        },
        spoken_line: |time, tension| format!("A los {time}: tensión de la línea {tension}."),
        spoken_worker: |worker, phase, force| format!("{worker} {phase}, {force}."),
        corner_governs: |corner| format!("Rige el {corner} de las tolerancias"),
        crew_last: |size| {
            format!(
                "Cuando caen varias personas, los últimos {size} no se pueden prometer: los deciden centésimas de segundo."
            )
        },
        corner_list: |corner, list| format!("{corner}: {list}"),
        corner_used_up: |corner| {
            format!("en el {corner} de las tolerancias se agota un amortiguador y se pone rígido")
        },
        corner_breaks: |tension, breaking| {
            format!(
                "con las tolerancias el cable se rompería (tensión de la línea {tension}, resistencia a la rotura {breaking})"
            )
        },
        corner_contact: |worker| format!("con las tolerancias {worker} golpea el nivel inferior"),
        swing: |worker, reach, drop| {
            format!(
                "caída en péndulo: {worker} cae a {reach} del conector y regresa debajo de él, {drop} más abajo. Por geometría el péndulo no termina más abajo que la suma de alturas. Lo que pueda golpear en el camino no se revisa aquí"
            )
        },
        edge_contact: |worker| {
            let whose = of(worker);
            format!(
                "la eslinga o retráctil {whose} se apoya en el borde de la viga. Debe ser de un tipo probado para borde; el borde no entra en este cálculo"
            )
        },
        describe_pulled: |height| format!("La línea baja ahí hasta {height} sobre la viga."),
        ledger_open: |off| {
            format!("no cuadra la energía: el movimiento calculado gana o pierde {off}% de ella")
        },
        swings_below_stack: |worker, deeper| {
            let whose = of(worker);
            format!(
                "la eslinga o retráctil {whose} ya salió hacia un lado: el péndulo termina {deeper} más abajo de lo que cuenta la suma de alturas"
            )
        },
        retracting_below: |worker, below, free_fall| {
            let whose = of(worker);
            format!(
                "la retráctil (SRL) {whose} está enganchada {below} más abajo que el anillo D, así que la caída libre es de {free_fall}. La mayoría se prueba con menos; solo las instrucciones del fabricante dicen si esta se puede usar ahí"
            )
        },
        free_fall_raised: |worker, given, taken| {
            format!(
                "la caída libre de {given} anotada para {worker} termina antes de que el anillo D baje hasta la línea, donde todavía nada está tenso; se usa {taken}"
            )
        },
        beyond_reach: |worker, offset, reach| {
            format!(
                "{worker} está a {offset} del conector, pero la eslinga solo alcanza {reach} hacia un lado"
            )
        },
        edge_slide: |worker, slide| {
            format!("al regresar en péndulo {worker}, el equipo se arrastra {slide} por el borde")
        },
        line_on_edge: |worker| {
            format!(
                "junto a {worker} la línea baja hasta la viga y se apoya en ella; ese contacto no entra en este cálculo"
            )
        },
        outside_checked: |list| {
            format!(
                "fuera del rango en que se probó este cálculo: {list}; ahí ningún resultado independiente respalda el número"
            )
        },
        checked_range: |label, value, least, most| {
            format!("{label} {value} (comprobado de {least} a {most})")
        },
        checked_from: |label, value, least| format!("{label} {value} (comprobado desde {least})"),
        checked_none: |label, value| format!("{label} {value} (nada comprobado)"),
    },
};
