//! Spanish, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    anywhere_freely: "También se probaron otras distancias: todos juntos, el más pesado en el centro, repartidos en el claro más largo, uno por claro.",
    anywhere_here: "no se encontró nada peor que donde están",
    anywhere_open: "sin calcular cuando se hizo esto",
    anywhere_why: "En una caída el conector baja por la línea hacia el centro del claro, y la gente camina. Por eso cuenta el peor lugar.",
    share_what: "Qué compartir",
    share_case: "Este caso",
    share_layouts: "Estas disposiciones",
    share_talk: "La charla",
    share_copy: "Copiar el enlace",
    share_send: "Enviar el enlace…",
    share_file: "Guardar como archivo",
    share_code: "El enlace como código para escanear",
    share_opens_case: "Abre este caso en esta sección, con estas unidades y este idioma.",
    share_opens_layouts: "Abre las disposiciones lado a lado y dice por qué difieren.",
    share_opens_talk: "Abre la charla sobre este caso en su primer paso.",
    share_no_layouts: "Aún no hay disposiciones: agréguelas en Decidir, Comparar.",
    share_no_result: "No hay resultado que compartir: corrija primero los datos.",
    share_no_code: "Este enlace es demasiado largo para un código. Cópielo o envíe el archivo.",
    coming: "Calculando… Mientras tanto, estos números son del caso anterior.",
    checks_heading: "Límites y resistencias clave",
    show_table: "Ver como tabla",
    chart_force: "Fuerza de detención en el tiempo",
    chart_tension: "Tensión de la línea en el tiempo",
    col_what: "verificación",
    col_demand: "demanda",
    col_capacity: "límite o resistencia",
    col_ratio: "relación",
    col_required: "requerida",
    col_verdict: "resultado",
    col_source: "fuente",
    checks_note: "Las demandas son las peores de ambos métodos, de todas las tolerancias y de pequeñas diferencias en la cuadrilla, redondeadas hacia arriba; límites, resistencias y relaciones, hacia abajo. Si un reglamento da un límite en dos unidades, cuenta el más estricto. Un resultado compara dos números; no autoriza el uso.",
    setup_read_heading: "Hoy",
    setup_read_weight: "Peso colgado a medio claro",
    setup_read_movement: "La línea bajó",
    setup_read_swings: "Vaivenes contados (ida y vuelta)",
    setup_read_time: "Tiempo de esos vaivenes",
    search_heading: "Peor caso",
    search_note: "Cada búsqueda prueba decenas de casos. El peor encontrado se calcula completo, igual que el caso de la página, y solo se comparan esos dos. Encuentra el peor de los que probó, no un peor demostrado.",
    search_delay: "Buscar los peores tiempos",
    search_places: "Buscar las peores posiciones",
    search_load: "Cargar este caso",
    search_running: "Buscando…",
    search_stop: "Detener la búsqueda",
    search_stopped: "Se detuvo antes del final: no se nombra un peor caso.",
    rope_ratio: "resistencia del cable ÷ tensión",
    verdict_within: "cumple",
    verdict_over: "pasa del límite",
    verdict_too_weak: "menos de lo requerido",
    not_evaluated: "sin evaluar: anote la resistencia nominal",
    time: "tiempo",
    chart_range: "rango con las tolerancias",
    limit_arrest: "límite con arnés de cuerpo completo",
    limit_by_ratio: "resistencia ÷ relación",
    checks_not_met: "No cumplen",
    checks_not_evaluated: "Sin evaluar",
    checks_met: "Cumplen",
    checks_information: "Solo informativo",
    verdict_meets: "cumple",
    verdict_does_not_meet: "no cumple",
    verdict_information: "solo informativo",
    reason_post: "sin evaluar: describa el poste extremo",
    reason_demand: "sin evaluar: la caída no dio un número",
    reason_limit: "sin evaluar: anote el límite",
    reason_criteria: "sin evaluar: para este peso el empleador debe modificar los criterios de la prueba",
    reason_unknown: "sin evaluar: no hay resultado confiable, vea la respuesta",
    source_memory: "cláusula sin verificar",
    setup_note: "Solo son comprobaciones. Si no coinciden, valen primero el indicador de tensión del propio sistema y las instrucciones de los fabricantes. No se cuenta la fricción en los postes.",
    setup_figures: "Montar la línea",
    setup_figure: "dato",
    setup_value: "valor",
    setup_remark: "nota",
    setup_pretension: "tensión inicial por fijar",
    setup_cut: "cable por cortar, tendido recto y sin tensión",
    setup_marks: "marcas, desde la punta izquierda",
    setup_marks_note: "terminación izquierda, postes intermedios, terminación derecha",
    setup_stretch: "estiramiento elástico con la tensión inicial",
    setup_take_up: "carrera del tensor",
    setup_sag: "flecha en reposo, claro por claro",
    setup_left_tieback: "tirante izquierdo, anclaje detrás del poste",
    setup_right_tieback: "tirante derecho, anclaje detrás del poste",
    setup_weight: "movimiento de la línea a medio claro con un peso colgado",
    setup_weight_yields: "no cuelgue este peso: se desplegaría el amortiguador de la línea",
    setup_no_weight: "ningún peso que se cuelgue a mano muestra bien la tensión",
    setup_better: "comprobación más confiable",
    setup_by_weight: "peso colgado",
    setup_by_swings: "tiempo de vaivenes",
    setup_uncountable: "demasiado rápido para contarlo a simple vista: cuelgue el peso",
    setup_tells_nothing: "esta lectura no muestra la tensión",
    setup_temperatures: "Tensión según la temperatura",
    setup_temperature: "temperatura",
    setup_tension: "tensión",
    setup_sag_one: "flecha",
    setup_movement: "movimiento",
    setup_today: "hoy",
    setup_beyond: "fuera de la tolerancia",
    setup_slack: "floja",
    setup_yields: "se despliega el amortiguador",
    setup_tiebacks: "Tirantes detrás de un poste de esta altura",
    setup_angle: "ángulo con la vertical",
    setup_set_back: "distancia detrás",
    setup_length: "longitud",
    setup_tension_ratio: "tirante ÷ línea",
    setup_compression_ratio: "poste ÷ línea",
    setup_no_reading: "Aquí ni un peso colgado a mano ni los vaivenes contados muestran bien la tensión: use el indicador de tensión del propio sistema.",
    setup_read_poor: "Esta lectura no es bastante precisa: revise también la flecha.",
    scenario_as_given: "caídas como se anotaron",
    scenario_together: "todos caen a la vez",
    stop_unknown: "No hay un resultado confiable.",
    stop_short: "No hay espacio suficiente bajo los pies.",
    stop_anywhere: "En algún lugar de la línea no alcanza el espacio o la resistencia: vea abajo.",
    search_unresolved: "No hay resultado para el caso tal cual, ni para otro de los que se calcularon completos.",
    why_absorber: "quienes caen no se detienen todos en el mismo instante, y la masa del propio cable frena la línea mientras el amortiguador se despliega",
    why_rebound_more: ", cuando la línea y los demás rebotan y el amortiguador se despliega otra vez; el balance de energía supone una sola detención para todos",
    why_balance: "el balance de energía supone que todos los que caen se detienen en el mismo instante y que la línea no pierde energía",
    why_balance_staggered: "el balance de energía no toma en cuenta los tiempos y supone que todos se detienen en el mismo instante; aquí caen uno tras otro",
    nominal_governs: "Las tolerancias no agregan nada: los datos tal cual piden la mayor altura libre.",
    say: Sentences {
        elsewhere: |line| format!("Estas son las caídas como se anotaron. {line}."),
        anywhere_at: |who, place, several| {
            if several {
                format!("{who}, con su centro en {place}")
            } else {
                format!("{who}, en {place}")
            }
        },
        anywhere_places: |who, places| format!("{who}, en {places}"),
        anywhere_first: |n| format!("los primeros {n} de la cuadrilla caen a la vez"),
        anywhere_first_in_turn: |n, delay, reversed| {
            let order = if reversed { ", el último primero" } else { "" };
            format!("los primeros {n} de la cuadrilla caen uno tras otro, cada {delay}{order}")
        },
        anywhere_room: |room| format!("menor espacio: {room}"),
        anywhere_room_at: |room, at| format!("menor espacio: {room} ({at})"),
        anywhere_strength: |ratio, required| format!("menor resistencia: {ratio} de {required}"),
        anywhere_strength_at: |ratio, required, at| {
            format!("menor resistencia: {ratio} de {required} ({at})")
        },
        anywhere_tried: |tried, most, step| {
            format!(
                "Se probaron {tried} casos a lo largo de la línea, con la cuadrilla a sus propias distancias. Cae un trabajador solo, o los primeros dos, tres y así hasta todos. Caen a la vez, o uno tras otro con hasta {most} entre caídas, en pasos de {step}. Es lo peor que se encontró, no un peor demostrado."
            )
        },
        anywhere_unresolved: |n, first| {
            format!("Sin resultado en {n} de ellos; el primero: {first}.")
        },
        history_governs: |more, why| {
            format!(
                "Rige la historia en el tiempo: pide {more} más que el balance de energía, porque {why}."
            )
        },
        why_overshoot: |rope| {
            format!(
                "la masa del propio cable ({rope}) lleva la línea más allá del punto en que las fuerzas se equilibran"
            )
        },
        why_rebound: |time| format!("el punto más bajo llega después de un rebote, a los {time}"),
        balance_governs: |more, why| {
            format!(
                "Rige el balance de energía: pide {more} más que la historia en el tiempo, porque {why}."
            )
        },
        methods_agree: |step| {
            format!("El balance de energía y la historia en el tiempo difieren en {step} o menos.")
        },
        corner_takes: |more, list| format!(" ({list}): {more} más que los datos tal cual."),
        undamped_more: |more| format!(": {more} más."),
        crew_one: |worker, late, mass| {
            format!("En ese cálculo {worker} cae {late} más tarde y pesa {mass} más de lo anotado.")
        },
        crew_all: |late, mass| {
            format!(
                "En ese cálculo todos pesan {mass} más de lo anotado y caen hasta {late} más tarde."
            )
        },
        crew_others: |worker, late, mass| {
            format!(
                "En ese cálculo todos menos {worker} caen {late} más tarde y pesan {mass} más de lo anotado."
            )
        },
        crew_beyond: |size| {
            format!("Añadido por otras pequeñas diferencias en la cuadrilla: {size}.")
        },
        tension_range: |most, corner, least, greatest, balance| {
            format!(
                "Tensión de la línea hasta {most} ({corner}). Con los datos tal cual: de {least} a {greatest}, con y sin la fricción interna de la línea; {balance} por el balance de energía, que no cuenta la masa del cable."
            )
        },
        with_limit: |value, limit| format!("{value}, límite {limit}"),
        chart_range_of: |worker| format!("{worker}, rango con las tolerancias"),
        chart_value: |curve, value| format!("{curve}: {value}"),
        chart_between: |range, least, greatest| format!("{range}: de {least} a {greatest}"),
        chart_least: |range| format!("{range}, mínimo"),
        chart_greatest: |range| format!("{range}, máximo"),
        with_required: |ratio, required| format!("{ratio}, se requiere {required}"),
        inputs_open: |n| format!("sin evaluar: datos por anotar: {n}"),
        weakest: |label, part| format!("{label}, la más débil: {part}"),
        source_input: |label| format!("dato: {label}"),
        clause: |clause| {
            let words = [
                (" note", " nota"),
                (" scope", " alcance"),
                (" deceleration distance", " distancia de desaceleración"),
            ];
            let mut said = String::new();
            for part in clause.split_inclusive(',') {
                let word = words.iter().find(|(english, _)| part.starts_with(english));
                let (english, spanish) = word.copied().unwrap_or_default();
                said.push_str(spanish);
                said.push_str(part.get(english.len()..).unwrap_or_default());
            }
            said
        },
        setup_within: |low, high| format!("de {low} a {high} dentro de la tolerancia"),
        setup_cut_note: |between, ends| {
            format!("{between} entre los postes extremos más {ends} para las terminaciones")
        },
        setup_take_up_note: |ends| format!("el estiramiento más {ends} que se mueven los extremos"),
        setup_tieback_note: |length, angle, tension| {
            format!(
                "{length} de largo, {angle} con la vertical; {tension} con la tensión inicial si toma toda la fuerza"
            )
        },
        setup_weight_note: |weight, span, least, most| {
            format!(
                "{weight} a la mitad del claro {span}; de {least} a {most} dentro de la tolerancia de la tensión inicial"
            )
        },
        setup_error: |off, error| {
            format!("una lectura con error de {off} desvía la tensión {error}")
        },
        setup_good: |what, error| format!("con {what} baja a {error}"),
        setup_swings: |n| format!("tiempo de {n} vaivenes (ida y vuelta)"),
        setup_swings_head: |n| format!("{n} vaivenes"),
        setup_swings_note: |span, least, most, swing| {
            format!(
                "jale de lado el centro del claro {span} menos de {swing} y suéltelo; de {least} a {most} está dentro de la tolerancia de la tensión inicial"
            )
        },
        setup_good_swings: |n, time| format!("{n} vaivenes ({time})"),
        setup_hang: |weight| format!("Para leerla mejor, cuelgue {weight}."),
        setup_count: |n| format!("Para leerla mejor, cuente {n} vaivenes (ida y vuelta)."),
        scenario_one: |worker| format!("solo cae {worker}"),
        scenario_in_turn: |delay, reversed| {
            let first = if reversed { "último" } else { "primer" };
            format!("caen uno tras otro, cada {delay}, empezando por el {first} trabajador")
        },
        search_progress: |made, of| format!("Buscando: paso {made} de {of}."),
        search_at: |places| format!("trabajadores en {places}"),
        search_found: |what, worst, given| {
            format!("Lo peor encontrado: {what}: {worst}; tal cual: {given}.")
        },
        search_found_only: |what, worst| {
            format!(
                "No hay resultado para el caso tal cual. Lo peor encontrado de los demás: {what}: {worst}."
            )
        },
        search_none: |given| {
            format!("Nada de lo probado deja menos espacio que el caso tal cual: {given}.")
        },
        search_open: |n, what| {
            format!(
                "Sin resultado en {n} de los casos probados; por ejemplo: {what}. El peor puede estar entre ellos."
            )
        },
        search_delays: |most| format!("Hasta {most} entre una caída y la siguiente."),
        search_tension: |tension, what| {
            format!("Mayor tensión de la línea encontrada: {tension} ({what}).")
        },
        search_tried: |n| format!("Se probaron {n} casos."),
        search_spacing: |distance| format!("Trabajadores separados {distance} o más."),
        stop_not_met: |n| match n {
            1 => "1 verificación no se cumple.".to_owned(),
            n => format!("{n} verificaciones no se cumplen."),
        },
        of_required: |ratio, required, part| format!("{ratio} de {required} requerida: {part}"),
        over_limit: |value, limit, what| format!("{value}, límite {limit}: {what}"),
        under_limit: |value, limit, what| format!("{value}, se requiere al menos {limit}: {what}"),
        checks_tally: |failed, open, parts| {
            let of_them = match parts {
                0 => String::new(),
                1 => ", 1 de ellas por una parte sin resistencia anotada".to_owned(),
                _ => format!(", {parts} de ellas por partes sin resistencia anotada"),
            };
            format!("{failed} sin cumplir, {open} sin evaluar{of_them}")
        },
    },
};
