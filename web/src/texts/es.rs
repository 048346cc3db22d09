//! Spanish, as crews in North America speak it.

use super::{FieldText, Fields, Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    caution: "Herramienta de planificación y enseñanza. El diseño, la instalación y el uso de una línea de vida horizontal corresponden a una persona calificada, según los códigos locales y las instrucciones de los fabricantes del equipo. Tenga un plan de rescate listo antes de usarla.",
    tagline: "El espacio que queda bajo las suelas de quien cae",
    invented: "ejemplo inventado",
    stale: "Estos números son de los últimos datos sin errores, no de lo que hay ahora en los campos.",
    problems_heading: "Algunos datos no se pueden usar",

    view_drop: "Caída",
    view_why: "Por qué",
    view_fit: "Qué cabe",
    view_checks: "Revisiones",
    view_setup: "Montaje",
    view_record: "Registro",
    talk: "Charla",
    share: "Compartir",
    share_copied: "Enlace copiado. Lleva el caso completo; nada se envía a un servidor.",
    share_by_hand: "El portapapeles no está disponible: copie el enlace de aquí.",
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
    more_inputs: "Más datos, cada uno con su valor inicial y de dónde viene",
    answer_heading: "La respuesta",
    stack_heading: "La suma de alturas",
    now_heading: "Ahora",
    checks_heading: "Límites y resistencias en breve",
    methods_heading: "Dos métodos lado a lado",
    show_table: "Ver como tabla",
    range_label: "Rango",
    default_label: "Valor inicial",
    basis_label: "De dónde viene",
    loading: "Cargando el cálculo…",
    no_wasm: "Este navegador no puede ejecutar WebAssembly, así que aquí no se puede calcular nada. Abra el enlace en un navegador más reciente; el caso se conserva en él.",
    crashed: "El cálculo se detuvo de forma inesperada. Vuelva a cargar la página; el enlace en la barra de direcciones conserva el caso.",
    reload: "Cargar de nuevo",
    storage_blocked: "El almacenamiento del navegador está lleno o bloqueado: aquí no se pueden guardar casos. Comparta el caso o guárdelo en un archivo.",
    offline_ready: "Guardado en este dispositivo: desde ahora funciona sin red.",
    update_ready: "Hay una versión más nueva.",

    word_spare: "de sobra",
    word_short: "que faltan",
    word_unknown: "no se puede decir",
    not_computed: "todavía no se ha calculado nada",
    rounding_note: "La altura requerida y las fuerzas se redondean hacia arriba; el espacio bajo los pies y las relaciones, hacia abajo. Los renglones suman tal como se muestran.",
    nobody_falls: "En este caso no cae nadie.",
    why_absorber: "los que caen no se detienen todos en el mismo instante, y la masa del propio cable frena la línea mientras el amortiguador se despliega",
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
    rope_ratio: "cable, fuerza de rotura entre tensión",
    free_fall: "caída libre",
    deceleration_distance: "distancia de desaceleración",
    verdict_within: "dentro",
    verdict_over: "pasa del límite",
    verdict_too_weak: "menos de lo requerido",
    not_evaluated: "sin evaluar: anote la resistencia nominal",
    inline_extension: "amortiguador en la línea, extensión",
    soles_below_line: "suelas bajo la línea",
    time: "tiempo",
    phase_standing: "de pie",
    phase_free_fall: "en caída libre",
    phase_arrest: "deteniéndose",
    phase_lowest: "en el punto más bajo",
    phase_rebound: "en el rebote",
    phase_hanging: "colgado",
    mark_peak_tension: "mayor tensión de la línea",

    chart_force: "Fuerza de detención en el tiempo",
    chart_tension: "Tensión de la línea en el tiempo",
    limit_arrest: "límite con arnés de cuerpo completo",
    limit_half_breaking: "la mitad de la fuerza de rotura",

    group_job: "El trabajo",
    group_line: "La línea",
    group_crew: "La cuadrilla",
    group_site: "La viga y el margen",
    group_motion: "El cálculo",

    title_label: "Obra y viga",
    title_hint: "Aparece en la hoja y en el enlace; no ponga nombres de personas.",
    rope_label: "Cable",
    rope_hint: "Llena diámetro, rigidez, masa y fuerza de rotura de un cable genérico; la hoja de datos del fabricante va primero.",
    rope_own: "valores propios",
    rope_galvanised_7x19: "7x19 galvanizado",
    rope_stainless_7x19: "7x19 inoxidable",
    rope_fibre_core_6x19: "6x19 alma de fibra",
    inline_label: "Amortiguador en la línea",
    inline_hint: "Limita la tensión dejando que la línea se alargue: menos fuerza en los postes, más deflexión.",
    count_label: "Usuarios en la línea",
    count_hint: "Todos los que están enganchados; cada usuario nuevo se coloca junto al último.",
    below_count_label: "Cosas abajo",
    below_count_hint: "Camiones, vigas inferiores, escaleras, material apilado: todo lo que sobresale del suelo.",
    falls_label: "Cae",
    falls_hint: "Si este trabajador cae o se queda de pie, enganchado a la línea.",
    falls_yes: "cae",
    falls_no: "se queda de pie",
    gear_label: "Equipo de conexión",
    gear_hint: "Una eslinga de longitud fija o una línea de vida autorretráctil.",
    gear_lanyard: "eslinga",
    gear_self_retracting: "línea de vida autorretráctil",
    absorber_label: "Amortiguador personal de caída",
    absorber_hint: "Limita la fuerza de detención al desplegarse; sin él, solo el estiramiento de la cinta detiene la caída.",
    choice_on: "sí",
    choice_off: "no",
    kind_label: "Qué es",
    kind_hint: "Decide cómo se dibuja y se nombra, nada más.",
    below_vehicle: "camión o máquina",
    below_structure: "viga o losa inferior",
    below_access: "escalera o andamio",
    below_stack: "material apilado",
    below_other: "otro",
    mixed: "cambia de un trabajador a otro; el valor que escriba aquí va a todos",
    empty_rigid: "Vacío: el apoyo no se mueve.",
    empty_not_evaluated: "Vacío: no se conoce, la resistencia no se evalúa.",
    empty_from_geometry: "Vacío: sale de la eslinga y las alturas.",
    empty_from_average: "Vacío: el promedio dividido entre 0.875.",
    empty_stands: "Vacío: se queda de pie.",

    basis_site: "solo se sabe en la obra; ningún valor inicial puede sustituirlo",
    basis_common_practice: "práctica común del oficio, sin fuente publicada",
    basis_catalogue: "catálogo de cables; la hoja de datos del fabricante va primero",
    basis_published: "norma o artículo publicado",
    basis_maker: "instrucciones del fabricante; el valor inicial es solo un ejemplo inventado",
    basis_method: "ajuste del cálculo",

    fault_not_finite: "no es un número que se pueda usar",
    fault_choice: "no es una de las opciones",
    fault_other: "no es un valor que se pueda usar aquí",
    doubt_other: "el cálculo avisa de una duda que esta página no conoce",
    fault_empty: "aquí hace falta un valor",

    link_foreign: "Este no es un enlace de esta página.",
    link_truncated: "El enlace termina antes de tiempo: una parte se perdió en el camino.",
    link_checksum: "El enlace cambió en el camino: la suma de control no coincide.",
    link_trailing: "Hay algo después del final del enlace.",
    json_end: "termina antes de tiempo",
    json_character: "este carácter no puede estar aquí",
    json_number: "no es un número que se pueda usar",
    json_text: "un texto con algo que no puede llevar",
    json_depth: "demasiados niveles",
    json_kind: "aquí se espera otra clase de valor",
    link_kept: "El caso de la página quedó como estaba.",
    shared_same: "El mismo resultado que cuando se compartió.",

    // scene
    scene_line: "línea",
    scene_beam_top: "sobre la viga",
    scene_datum: "suelo",
    scene_tension: "línea {}",
    scene_spare: "sobran {}",
    scene_short: "faltan {}",
    scene_required: "requerido",
    scene_available: "medido",
    page_skip: "Ir a la respuesta",
    page_close: "Cerrar",
    page_purpose: "Hasta dónde baja un trabajador que cae en una línea de vida horizontal temporal, y si los pies quedan libres de lo que hay abajo.",
    page_drop: "La caída, dibujada a escala",
    page_player: "Reproducción de la caída",
    page_keys: "Espacio: soltar o pausar. Flechas: un paso. Inicio: en reposo. Fin: colgado en reposo. L: punto más bajo.",
    page_hanging: "Colgado en reposo",
    page_more: "Más datos",
    page_charts: "Fuerza y tensión en el tiempo",
    page_add_below: "Agregar algo abajo",
    page_remove: "Quitar",
    page_link: "El enlace",
    page_kept_text: "El enlace como llegó, conservado",
    group_posts: "Postes extremos y tirantes",
    group_strengths: "Resistencias nominales",
    group_tolerances: "Tolerancias",
    group_allowance: "Tolerancia del modelo",
    group_temperature: "Temperatura",
    group_sets: "Con qué comparan las revisiones",
    left_post_label: "Poste izquierdo descrito",
    left_post_hint: "Con él, la rigidez del extremo izquierdo sale del poste y el tirante, y se revisan sus fuerzas; sin él cuenta la rigidez dada con la línea.",
    right_post_label: "Poste derecho descrito",
    right_post_hint: "Con él, la rigidez del extremo derecho sale del poste y el tirante, y se revisan sus fuerzas; sin él cuenta la rigidez dada con la línea.",
    left_tieback_label: "Tirante izquierdo",
    left_tieback_hint: "Va de la cabeza del poste a la viga, detrás del poste; toma casi toda la fuerza y comprime el poste.",
    right_tieback_label: "Tirante derecho",
    right_tieback_hint: "Va de la cabeza del poste a la viga, detrás del poste; toma casi toda la fuerza y comprime el poste.",
    set_us_label: "29 CFR 1926 subparte M (EE. UU.)",
    set_us_hint: "Compara con los límites de este reglamento; es con el que se empieza.",
    set_european_label: "EN 355 y EN 795",
    set_european_hint: "Pone lo que pide esta caída junto a los límites que un producto cumple en su propia prueba.",
    own_count_label: "Límites propios",
    own_count_hint: "De un código local, del dueño o de un fabricante, cada uno con dónde está escrito.",
    own_label_label: "Nombre",
    own_label_hint: "Cómo se llama la revisión en la tabla.",
    own_quantity_label: "Qué limita",
    own_quantity_hint: "Se compara el mayor de trabajadores y extremos; para el espacio bajo los pies, el menor.",
    own_limit_label: "Límite",
    own_limit_hint: "Como máximo esto; para el espacio bajo los pies, al menos esto.",
    own_reference_label: "Dónde está escrito",
    own_reference_hint: "Cláusula, plano o carta, para que otra persona lo pueda buscar.",
    own_arrest_force: "fuerza de detención sobre un trabajador",
    own_free_fall: "caída libre",
    own_deceleration_distance: "distancia de desaceleración",
    own_required_depth: "requerido bajo la línea, con el margen",
    own_footroom: "espacio bajo los pies, al menos",
    own_line_tension: "tensión en cualquier punto de la línea",
    own_end_tension: "tensión en un extremo de la línea",
    own_tieback_tension: "tensión de un tirante",
    own_post_compression: "compresión de un poste extremo",
    own_post_moment: "momento al pie de un poste extremo",
    own_intermediate_post_load: "carga hacia abajo en un poste intermedio",
    allowance: "tolerancia del modelo",
    tolerance_soft: "tolerancias, lado blando",
    tolerance_stiff: "tolerancias, lado rígido",
    tolerance_mixed: "tolerancias, lado mixto",
    tolerance_undamped: "línea sin amortiguación",
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
    col_what: "qué",
    col_demand: "demanda",
    col_capacity: "límite o resistencia",
    col_ratio: "relación",
    col_required: "se requiere",
    col_verdict: "resultado",
    col_source: "fuente",
    checks_note: "Las demandas son las peores de ambos métodos y de todos los lados de las tolerancias, redondeadas hacia arriba; límites, resistencias y relaciones, hacia abajo. Un resultado compara dos números; no es una autorización.",
    check_no_contact: "profundidad de las suelas, sin contacto",
    check_system_factor: "sistema completo, por su parte más débil",
    check_anchorage_alternative: "anclaje por número de trabajadores, la alternativa al factor de dos",
    check_en_arrest_force: "fuerza de detención, junto al límite de la prueba del amortiguador",
    check_en_extension: "extensión del amortiguador, junto al límite de su prueba",
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
    check_intermediate_along: "fuerza a lo largo de la línea, si no desliza",
    subject_left_end: "extremo izquierdo",
    subject_right_end: "extremo derecho",
    verdict_meets: "cumple",
    verdict_does_not_meet: "no cumple",
    verdict_information: "como información",
    reason_post: "sin evaluar: describa el poste extremo",
    reason_demand: "sin evaluar: la caída no dio un número",
    reason_limit: "sin evaluar: no hay un límite utilizable",
    reason_unknown: "sin evaluar: no se puede decir, vea la respuesta",
    source_memory: "de memoria",
    page_add_own: "Agregar un límite propio",
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
    setup_read_heading: "Lo que se leyó en la línea",
    setup_read_weight: "Peso colgado a medio claro",
    setup_read_movement: "Bajó",
    setup_read_time: "Segundos para diez vaivenes",
    setup_read_within: "Está dentro de la tolerancia de la tensión inicial.",
    setup_read_beyond: "Está fuera de la tolerancia de la tensión inicial.",
    setup_read_poor: "Pero esta lectura no la dice bien: use más peso o más vaivenes, y mire la flecha.",
    search_heading: "Peores tiempos y lugares",
    search_note: "Cada búsqueda prueba decenas de casos con los datos como se dieron, sin tolerancias; solo lo peor encontrado se evalúa después con ellas. Encuentra lo peor de lo que probó, no un límite demostrado.",
    search_delay: "Buscar los tiempos de las caídas",
    search_places: "Buscar los lugares en la línea",
    search_load: "Cargar este caso",
    search_running: "Buscando…",
    search_none: "Nada de lo probado pide más que el caso como se dio.",
    scenario_as_given: "las caídas como se dieron",
    scenario_together: "todos caen a la vez",
    checked_span_count: "número de claros",
    checked_end_stiffness: "rigidez de un extremo con su poste",
    checked_users: "trabajadores que caen",
    checked_delay: "tiempo entre la primera caída y la última",
    checked_self_retracting: "trabajadores con retráctil",
    checked_offset: "distancia al conector",
    checked_deflection: "flecha de la línea entre su claro",
    checked_slope: "pendiente de la línea junto a un conector",
    checked_other: "otra magnitud",
    search_unresolved: "no se puede decir",
    fields: Fields {
        spans: FieldText {
            label: "Claros",
            hint: "De poste a poste, desde la izquierda, como 9 + 9; un claro más largo se deflecta más.",
        },
        height_above_beam: FieldText {
            label: "Línea sobre la viga",
            hint: "Altura de la línea en sus apoyos; una línea más alta acorta la caída libre.",
        },
        pretension: FieldText {
            label: "Tensión inicial",
            hint: "Tensión de la línea en reposo; con más hay menos deflexión y más fuerza en los postes.",
        },
        diameter: FieldText {
            label: "Diámetro del cable",
            hint: "Diámetro nominal; nombra el cable y se dibuja, lo que cuenta es la rigidez.",
        },
        axial_stiffness: FieldText {
            label: "Rigidez del cable, EA",
            hint: "Tensión para estirarlo en toda su longitud; un cable más blando se deflecta más.",
        },
        mass_per_length: FieldText {
            label: "Masa del cable por longitud",
            hint: "Hace que la línea tenga flecha en reposo y se pase de largo en una caída.",
        },
        breaking_force: FieldText {
            label: "Fuerza de rotura del cable",
            hint: "Fuerza mínima de rotura de la hoja de datos; solo se usa para la relación de resistencia.",
        },
        inline_yield: FieldText {
            label: "Amortiguador en la línea, fuerza",
            hint: "Tensión de la línea con la que empieza a extenderse.",
        },
        inline_extension: FieldText {
            label: "Amortiguador en la línea, extensión máxima",
            hint: "Cuando se agota, la línea vuelve a ser rígida.",
        },
        left_end: FieldText {
            label: "Extremo izquierdo, rigidez",
            hint: "Fuerza horizontal por movimiento del poste extremo con su tirante; un extremo más blando da más deflexión.",
        },
        right_end: FieldText {
            label: "Extremo derecho, rigidez",
            hint: "Fuerza horizontal por movimiento del poste extremo con su tirante; un extremo más blando da más deflexión.",
        },
        position: FieldText {
            label: "Lugar en la línea",
            hint: "Del poste extremo izquierdo al conector, a lo largo de la línea.",
        },
        mass: FieldText {
            label: "Masa con herramienta",
            hint: "Cuerpo, ropa y herramienta juntos; con más masa se cae más hondo y se jala más fuerte.",
        },
        dring_height: FieldText {
            label: "Del anillo D a la suela",
            hint: "Altura del anillo D con el trabajador de pie; un cuerpo más alto pide más espacio.",
        },
        harness_stretch: FieldText {
            label: "Estiramiento del arnés",
            hint: "Tolerancia por el arnés que cede y el anillo D que sube; se suma completa.",
        },
        fall_time: FieldText {
            label: "Cae a los",
            hint: "Tiempo después del primero; una segunda caída en una línea ya cargada puede bajar más.",
        },
        gear_length: FieldText {
            label: "Longitud de la eslinga",
            hint: "Con el amortiguador plegado y los conectores; todo se suma a la caída libre y a la altura.",
        },
        lock_distance: FieldText {
            label: "Distancia de trabado",
            hint: "Línea que sale antes de que se trabe la línea retráctil.",
        },
        gear_stiffness: FieldText {
            label: "Cinta y arnés, rigidez",
            hint: "Fuerza por estiramiento hasta llegar a la fuerza del amortiguador.",
        },
        average_force: FieldText {
            label: "Amortiguador, fuerza promedio",
            hint: "Fuerza promedio de despliegue; una menor se extiende más, una mayor jala más.",
        },
        maximum_force: FieldText {
            label: "Amortiguador, fuerza máxima",
            hint: "Fuerza máxima de despliegue, de la hoja del fabricante.",
        },
        max_extension: FieldText {
            label: "Amortiguador, extensión máxima",
            hint: "Cuando se agota, la eslinga se vuelve rígida y la fuerza sube.",
        },
        locked_stiffness: FieldText {
            label: "Amortiguador agotado, rigidez",
            hint: "Fuerza por estiramiento de la eslinga con el amortiguador totalmente desplegado.",
        },
        free_fall: FieldText {
            label: "Caída libre, medida",
            hint: "Caída libre antes de que el equipo se tense, si se conoce de otra forma.",
        },
        beam_top: FieldText {
            label: "Viga sobre el suelo",
            hint: "La altura medida donde no hay nada abajo.",
        },
        beam_depth: FieldText {
            label: "Peralte de la viga",
            hint: "Solo se dibuja; no cambia ningún número.",
        },
        margin: FieldText {
            label: "Margen",
            hint: "Espacio que debe quedar libre bajo las suelas por lo que nadie midió.",
        },
        reach: FieldText {
            label: "Alcance a cada lado",
            hint: "Hasta dónde puede llegar a lo largo de la viga quien cae; las caídas en péndulo piden más.",
        },
        below_from: FieldText {
            label: "Empieza en",
            hint: "Desde el poste extremo izquierdo; puede quedar a su izquierda.",
        },
        below_to: FieldText {
            label: "Termina en",
            hint: "Desde el poste extremo izquierdo.",
        },
        below_height: FieldText {
            label: "Altura sobre el suelo",
            hint: "Su punto más alto, con la carga.",
        },
        damping: FieldText {
            label: "Amortiguación de la línea",
            hint: "Fricción interna del cable; con 0 se pasa más de largo.",
        },
        duration: FieldText {
            label: "Tiempo simulado",
            hint: "Lo bastante largo para que todos lleguen al punto más bajo.",
        },
        offset_along: FieldText {
            label: "De pie a un lado del conector",
            hint: "A lo largo de la línea, positivo a la derecha; quien cae lejos del conector se balancea.",
        },
        edge_distance: FieldText {
            label: "De la línea al borde de la viga",
            hint: "Distancia del borde por donde cae, medida de lado desde la línea; un borde lejano toca el equipo y causa péndulo.",
        },
        left_bending: FieldText {
            label: "Poste izquierdo, rigidez a flexión EI",
            hint: "Módulo por momento de inercia del poste en la dirección de la línea; uno más blando cede más.",
        },
        left_set_back: FieldText {
            label: "Tirante izquierdo, distancia detrás",
            hint: "Del pie del poste hacia atrás hasta la fijación; igual a la altura del poste queda a 45°.",
        },
        left_tieback_stiffness: FieldText {
            label: "Tirante izquierdo, rigidez EA",
            hint: "De la eslinga o del cable; uno más blando deja más fuerza al poste.",
        },
        right_bending: FieldText {
            label: "Poste derecho, rigidez a flexión EI",
            hint: "Módulo por momento de inercia del poste en la dirección de la línea; uno más blando cede más.",
        },
        right_set_back: FieldText {
            label: "Tirante derecho, distancia detrás",
            hint: "Del pie del poste hacia atrás hasta la fijación; igual a la altura del poste queda a 45°.",
        },
        right_tieback_stiffness: FieldText {
            label: "Tirante derecho, rigidez EA",
            hint: "De la eslinga o del cable; uno más blando deja más fuerza al poste.",
        },
        termination_efficiency: FieldText {
            label: "Terminación del cable, eficiencia",
            hint: "Parte de la fuerza de rotura que conserva la terminación; 0.8 es para grapas puestas como dice su fabricante.",
        },
        end_anchorage: FieldText {
            label: "Anclaje de la línea, cada extremo",
            hint: "Resistencia nominal de lo que sujeta la línea en la cabeza del poste.",
        },
        post_moment: FieldText {
            label: "Poste extremo, momento al pie",
            hint: "Momento que aguantan el poste y su fijación a la viga.",
        },
        post_compression: FieldText {
            label: "Poste extremo, compresión",
            hint: "Compresión que aguanta el poste; un tirante empinado lo comprime mucho.",
        },
        tieback_strength: FieldText {
            label: "Tirante",
            hint: "Resistencia nominal de la eslinga o el cable con sus herrajes.",
        },
        tieback_anchorage: FieldText {
            label: "Anclaje del tirante",
            hint: "A lo que se fija en la viga, en la dirección del tirante.",
        },
        intermediate_post: FieldText {
            label: "Poste intermedio, hacia abajo",
            hint: "Carga hacia abajo que aguanta la cabeza de un poste intermedio.",
        },
        required_ratio: FieldText {
            label: "Resistencia entre carga, requerida",
            hint: "Lo que cada parte debe conservar; 2 es 29 CFR 1926.502(d)(8).",
        },
        tolerance_mass: FieldText {
            label: "Masa, puede variar",
            hint: "Trabajadores más pesados caen más hondo y jalan más; es una parte del valor: 0.10 o 10 %.",
        },
        tolerance_absorber: FieldText {
            label: "Fuerza promedio del amortiguador, puede variar",
            hint: "Un amortiguador más débil se extiende más; es una parte del valor: 0.10 o 10 %.",
        },
        tolerance_pretension: FieldText {
            label: "Tensión inicial, puede variar",
            hint: "Con menos hay más deflexión, con más hay más fuerza; es una parte del valor: 0.10 o 10 %.",
        },
        tolerance_rope: FieldText {
            label: "Rigidez del cable, puede variar",
            hint: "Un cable nuevo es más blando que uno usado; es una parte del valor: 0.10 o 10 %.",
        },
        tolerance_ends: FieldText {
            label: "Rigidez de los extremos, puede variar",
            hint: "Postes, fijaciones y concreto ceden más de lo que dice el plano; es una parte del valor: 0.10 o 10 %.",
        },
        tolerance_inline: FieldText {
            label: "Fuerza del amortiguador en la línea, puede variar",
            hint: "Si cede antes hay más deflexión, si cede después hay más fuerza; es una parte del valor: 0.10 o 10 %.",
        },
        allowance_clearance: FieldText {
            label: "Se suma a deflexión y extensión",
            hint: "Las caídas medidas bajan más o menos que las calculadas: pruebas de amortiguadores hallaron hasta 70 % más extensión que el método de la norma. Es una parte del valor: 0.10 o 10 %.",
        },
        allowance_tension: FieldText {
            label: "Se suma a la tensión de la línea",
            hint: "Solo cuenta en las revisiones de resistencia; las pruebas hallaron métodos manuales desviados hasta 17 %. Es una parte del valor: 0.10 o 10 %.",
        },
        temperature_installed: FieldText {
            label: "Cuando se tensó la línea",
            hint: "Temperatura del cable cuando se fijó la tensión inicial.",
        },
        temperature_today: FieldText {
            label: "Hoy",
            hint: "El frío tensa el cable y el calor lo afloja: la caída se calcula con la tensión de la línea a esta temperatura.",
        },
    },
    say: Sentences {
        worker: |n| format!("el trabajador {n}"),
        worker_label: |n| format!("Trabajador {n}"),
        below_label: |n, kind| format!("Abajo {n}: {kind}"),
        for_all: |label| format!("{label}, todos"),

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
            format!("se agota el amortiguador de {worker} y se vuelve rígido: {force}")
                .replace(" de el ", " del ")
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
                "Rige la historia en el tiempo: pide {more} más que el balance de energía, porque {why}."
            )
        },
        why_overshoot: |rope| {
            format!(
                "la masa del propio cable ({rope}) lleva la línea más allá de la forma en que las fuerzas se equilibran"
            )
        },
        why_rebound: |time| {
            format!(
                "el punto más bajo llega después de un rebote, a los {time}, cuando la línea y los demás regresan y el amortiguador se despliega otra vez; el balance de energía conoce una sola detención para todos"
            )
        },
        balance_governs: |more, why| {
            format!(
                "Rige el balance de energía: pide {more} más que la historia en el tiempo, porque {why}."
            )
        },
        methods_agree: |step| {
            format!("El balance de energía y la historia en el tiempo coinciden dentro de {step}.")
        },

        with_limit: |value, limit| format!("{value}, límite {limit}"),
        with_required: |ratio, required| format!("{ratio}, se requiere {required}"),
        of_worker: |label, worker| format!("{label}, {worker}"),
        mark_taut: |worker| format!("{worker}: equipo tenso"),
        mark_lowest: |worker| format!("{worker}: punto más bajo"),

        out_of_range: |value, min, max| format!("{value} está fuera de {min} a {max}"),
        range: |min, max| format!("{min} a {max}"),
        count: |found, min, max| format!("{found} está fuera de {min} a {max}"),
        text_too_long: |found, max| format!("{found} caracteres; caben {max} como máximo"),
        lanyard_too_short: |value, min| {
            format!("{value} es muy corta para estar de pie: al menos {min}")
        },
        slack_at_rest: |value, min| {
            format!("{value} deja la línea floja en reposo: al menos {min}")
        },
        reversed: |value, min| format!("termina en {value}, antes de empezar en {min}"),
        above_beam: |value, max| format!("{value} queda más alto que la viga: como máximo {max}"),
        pretension_too_high: |value, max| {
            format!("{value} es más de lo que la línea aguanta en reposo: como máximo {max}")
        },
        force_order: |value, min| format!("{value} es menos que la fuerza promedio de {min}"),
        at_span: |n, message| format!("claro {n}: {message}"),
        problem: |label, message| format!("{label}: {message}"),
        unreadable: |at, example| {
            format!("no se entiende a partir del carácter {at}; escríbalo como {example}")
        },
        wrong_unit: |unit, example| {
            format!("«{unit}» no es unidad para esto; escríbalo como {example}")
        },
        example: |text| format!("por ejemplo {text}"),

        link_version: |version| {
            format!(
                "El enlace es del formato {version}, que esta página no conoce; una página más nueva quizá sí."
            )
        },
        link_character: |at| format!("El carácter {at} no puede estar en un enlace."),
        link_damaged: |at| format!("El enlace está dañado en el byte {at}."),
        link_too_long: |most| {
            format!("El enlace trae más de {most} bytes, que ningún caso necesita.")
        },
        link_content: |at, reason| {
            format!("El contenido del enlace no se puede leer en el byte {at}: {reason}.")
        },
        json_twice: |name| format!("«{name}» está dos veces"),
        json_unknown: |name| format!("no se conoce «{name}»"),
        json_missing: |name| format!("falta «{name}»"),
        link_fault: |field, message| {
            format!("El caso del enlace no se puede usar. {field}: {message}.")
        },
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

        own_label: |n| format!("Límite propio {n}"),
        characters: |max| format!("como máximo {max} caracteres"),
        corner_governs: |more, corner, list| {
            format!(
                "Rige el {corner} de las tolerancias ({list}): pide {more} más que los datos como se dieron."
            )
        },
        undamped_governs: |more| format!("Rige la línea sin su amortiguación: pide {more} más."),
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
            format!(
                "el equipo de {worker} se apoya en el borde de la viga: debe estar hecho para eso, y el borde no entra en este cálculo"
            )
            .replace(" de el ", " del ")
        },
        describe_pulled: |height| format!("La línea baja ahí hasta {height} sobre la viga."),
        subject_post: |n| format!("poste intermedio {n}"),
        parts_not_evaluated: |n| format!("sin evaluar: resistencias nominales por anotar: {n}"),
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
        setup_read_only: |tension| format!("{tension} en reposo."),
        scenario_one: |worker| format!("solo cae {worker}"),
        scenario_in_turn: |delay, reversed| {
            let first = if reversed { "último" } else { "primer" };
            format!("caen uno tras otro, cada {delay}, empezando por el {first} trabajador")
        },
        search_at: |places| format!("trabajadores en {places}"),
        search_found: |what, worst, given| {
            format!("Lo peor encontrado: {what}: {worst}; como se dio: {given}.")
        },
        search_tension: |tension, what| {
            format!("Mayor tensión de la línea encontrada: {tension} ({what}).")
        },
        search_tried: |n| format!("Se probaron {n} casos."),
        search_spacing: |distance| format!("Nadie a menos de {distance} de otro."),
        checks_tally: |failed, open| format!("{failed} sin cumplir, {open} sin evaluar"),
        ledger_open: |off| {
            format!("las energías del movimiento calculado no cuadran: difieren en {off} %")
        },
        swings_below_stack: |worker, deeper| {
            format!(
                "el equipo de {worker} está desenrollado hacia un lado: su péndulo termina {deeper} más abajo de lo que cuenta la suma de alturas"
            )
            .replace(" de el ", " del ")
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
        search_tolerances: |worst, given| {
            format!("Con las tolerancias: {worst}; como se dio: {given}.")
        },
    },
};
