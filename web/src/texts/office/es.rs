//! Spanish, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    checks_heading: "Límites y resistencias en breve",
    show_table: "Ver como tabla",
    chart_force: "Fuerza de detención en el tiempo",
    chart_tension: "Tensión de la línea en el tiempo",
    col_what: "qué",
    col_demand: "demanda",
    col_capacity: "límite o resistencia",
    col_ratio: "relación",
    col_required: "se requiere",
    col_verdict: "resultado",
    col_source: "fuente",
    checks_note: "Las demandas son las peores de ambos métodos, de todos los lados de las tolerancias y de pequeñas diferencias en la cuadrilla, redondeadas hacia arriba; límites, resistencias y relaciones, hacia abajo. Un resultado compara dos números; no es una autorización.",
    setup_read_heading: "Lo que se leyó en la línea",
    setup_read_weight: "Peso colgado a medio claro",
    setup_read_movement: "Bajó",
    setup_read_time: "Segundos para diez vaivenes",
    search_heading: "Peores tiempos y lugares",
    search_note: "Cada búsqueda prueba decenas de casos. El peor encontrado se calcula completo, igual que el caso de la página, y solo se comparan esos dos. Encuentra el peor de los que probó, no un peor demostrado.",
    search_delay: "Buscar los tiempos de las caídas",
    search_places: "Buscar los lugares en la línea",
    search_load: "Cargar este caso",
    search_running: "Buscando…",
    search_stop: "Detener la búsqueda",
    search_stopped: "Se detuvo antes del final: no se nombra un peor caso.",
    rope_ratio: "cable, fuerza de rotura entre tensión",
    free_fall: "caída libre",
    deceleration_distance: "distancia de desaceleración",
    verdict_within: "dentro",
    verdict_over: "pasa del límite",
    verdict_too_weak: "menos de lo requerido",
    not_evaluated: "sin evaluar: anote la resistencia nominal",
    time: "tiempo",
    chart_range: "rango con las tolerancias",
    limit_arrest: "límite con arnés",
    limit_half_breaking: "la mitad de la fuerza de rotura",
    check_no_contact: "profundidad de las suelas, sin contacto",
    check_system_factor: "sistema completo, por su parte más débil",
    check_anchorage_alternative: "anclaje por número de trabajadores, la alternativa al factor de dos",
    check_lanyard_strength: "resistencia de la eslinga, mínima según el reglamento",
    check_self_retracting_strength: "resistencia de la línea autorretráctil, mínima según el reglamento",
    check_twice_impact_energy: "eslinga o retráctil con el doble de la energía de impacto",
    check_user_mass: "peso con herramientas, junto al peso de las pruebas del reglamento",
    check_en_arrest_force: "fuerza de detención, junto al límite de la prueba del amortiguador",
    check_en_extension: "extensión del amortiguador, junto al límite de su prueba",
    check_en_retractable_force: "fuerza de detención, junto al límite de la prueba de la línea autorretráctil",
    check_en_retractable_distance: "distancia de detención, junto al límite de la prueba de la línea autorretráctil",
    check_en_users: "usuarios, junto al número para el que se hizo la norma",
    check_footroom: "profundidad bajo la línea, con el margen",
    check_rope: "cable",
    check_termination: "terminación del cable",
    check_end_anchorage: "anclaje de la línea",
    check_post_moment: "momento al pie del poste",
    check_post_compression: "compresión del poste",
    check_tieback: "tirante",
    check_tieback_anchorage: "anclaje del tirante",
    check_intermediate_post: "carga hacia abajo",
    check_intermediate_along: "fuerza a lo largo de la línea si el cable no corre libre",
    subject_left_end: "extremo izquierdo",
    subject_right_end: "extremo derecho",
    checks_not_met: "No cumplen",
    checks_not_evaluated: "Sin evaluar",
    checks_met: "Cumplen",
    checks_information: "Como información",
    verdict_meets: "cumple",
    verdict_does_not_meet: "no cumple",
    verdict_information: "como información",
    reason_post: "sin evaluar: describa el poste extremo",
    reason_demand: "sin evaluar: la caída no dio un número",
    reason_limit: "sin evaluar: no hay un límite utilizable",
    reason_criteria: "sin evaluar: para este peso el empleador debe modificar los criterios de la prueba",
    reason_unknown: "sin evaluar: no se puede decir, vea la respuesta",
    source_memory: "de memoria",
    setup_note: "Solo son comprobaciones, subordinadas al indicador de tensión del propio sistema y a las instrucciones de los fabricantes: si no coinciden, aquellos van primero. No se cuenta la fricción en los postes.",
    setup_figures: "Montar la línea",
    setup_figure: "dato",
    setup_value: "valor",
    setup_remark: "nota",
    setup_pretension: "tensión inicial por fijar",
    setup_cut: "cable por cortar, flojo y recto",
    setup_marks: "marcas desde la punta izquierda",
    setup_marks_note: "terminación izquierda, postes intermedios, terminación derecha",
    setup_stretch: "estiramiento elástico con la tensión inicial",
    setup_take_up: "carrera del tensor",
    setup_sag: "flecha en reposo, claro por claro",
    setup_left_tieback: "tirante izquierdo, fijación detrás del poste",
    setup_right_tieback: "tirante derecho, fijación detrás del poste",
    setup_weight: "movimiento con un peso colgado",
    setup_weight_yields: "no lo cuelgue: cedería el amortiguador en la línea",
    setup_no_weight: "ningún peso que se pueda colgar a mano da bien la tensión",
    setup_better: "la comprobación que dice más",
    setup_by_weight: "peso colgado",
    setup_by_swings: "tiempo de vaivenes",
    setup_uncountable: "demasiado rápido para contarlo a simple vista",
    setup_tells_nothing: "esta lectura no dice la tensión",
    setup_temperatures: "Tensión según la temperatura",
    setup_temperature: "temperatura",
    setup_tension: "tensión",
    setup_sag_one: "flecha",
    setup_movement: "movimiento",
    setup_today: "hoy",
    setup_beyond: "fuera de la tolerancia",
    setup_slack: "floja",
    setup_yields: "el amortiguador cede",
    setup_tiebacks: "Tirantes detrás de un poste de esta altura",
    setup_angle: "ángulo con la vertical",
    setup_set_back: "distancia detrás",
    setup_length: "longitud",
    setup_tension_ratio: "tensión entre fuerza",
    setup_compression_ratio: "compresión del poste entre fuerza",
    setup_read_within: "Está dentro de la tolerancia de la tensión inicial.",
    setup_read_beyond: "Está fuera de la tolerancia de la tensión inicial.",
    setup_read_poor: "Pero esta lectura no la dice bien: use más peso o más vaivenes, y mire la flecha.",
    scenario_as_given: "caídas como se anotaron",
    scenario_together: "todos caen a la vez",
    stop_unknown: "No hay un resultado confiable.",
    stop_short: "No hay espacio suficiente bajo los pies.",
    search_unresolved: "No hay resultado para el caso tal cual, ni para otro de los que se calcularon completos.",
    say: Sentences {
        with_limit: |value, limit| format!("{value}, límite {limit}"),
        chart_range_of: |worker| format!("{worker}, rango con las tolerancias"),
        chart_value: |curve, value| format!("{curve}: {value}"),
        chart_between: |range, least, greatest| format!("{range}: de {least} a {greatest}"),
        chart_least: |range| format!("{range}, mínimo"),
        chart_greatest: |range| format!("{range}, máximo"),
        with_required: |ratio, required| format!("{ratio}, se requiere {required}"),
        subject_post: |n| format!("poste intermedio {n}"),
        parts_not_evaluated: |n| format!("sin evaluar: faltan {n} partes"),
        weakest: |label, part| format!("{label}: {part}"),
        source_input: |label| format!("dato: {label}"),
        setup_within: |low, high| format!("de {low} a {high} dentro de la tolerancia"),
        setup_cut_note: |between, ends| {
            format!("{between} entre los postes extremos y {ends} para las terminaciones")
        },
        setup_take_up_note: |ends| format!("el estiramiento y {ends} que ceden los extremos"),
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
        setup_swings: |n| format!("tiempo de {n} vaivenes"),
        setup_swings_note: |span, least, most, swing| {
            format!(
                "claro {span} movido de lado, menos de {swing} a cada lado; de {least} a {most} dentro de la tolerancia de la tensión inicial"
            )
        },
        setup_good_swings: |n, time| format!("{n} vaivenes ({time})"),
        setup_read: |tension, low, high| {
            format!("{tension} en reposo, entre {low} y {high} por el error de la lectura.")
        },
        setup_read_other: |low, high| format!("También concuerda de {low} a {high}."),
        setup_read_only: |tension| format!("{tension} en reposo."),
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
                "Sin resultado en {n} de los casos probados, por ejemplo: {what}. El peor puede estar entre ellos."
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
        of_required: |ratio, required, part| format!("{ratio} de {required} requerido: {part}"),
        over_limit: |value, limit, what| format!("{value}, límite {limit}: {what}"),
        under_limit: |value, limit, what| format!("{value}, se requiere al menos {limit}: {what}"),
        checks_tally: |failed, open| format!("{failed} sin cumplir, {open} sin evaluar"),
    },
};
