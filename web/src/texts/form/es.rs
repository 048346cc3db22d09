//! Spanish, as crews in North America speak it.

use super::{FieldText, Fields, Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    share_copied: "Enlace copiado. Lleva el caso completo; nada se envía a un servidor.",
    share_by_hand: "El portapapeles no está disponible: copie el enlace de aquí.",
    more_inputs: "Más datos, cada uno con su valor inicial y de dónde viene",
    range_label: "Rango",
    default_label: "Valor inicial",
    basis_label: "De dónde viene",
    offline_ready: "Guardado en este dispositivo: desde ahora funciona sin red.",
    update_ready: "Hay una versión más nueva.",
    page_add_below: "Agregar algo abajo",
    page_remove: "Quitar",
    page_link: "El enlace",
    page_part_failed: "No se pudo cargar esta parte de la página. Revise la conexión y recargue la página; el enlace en la barra de direcciones conserva su caso.",
    page_kept_text: "El enlace como llegó, conservado",
    page_add_own: "Agregar un límite propio",
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
    middle_label: "Centro en",
    middle_hint: "Mueve todo a lo largo de la viga; el ancho queda igual.",
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
    basis_chosen: "elección de esta página; no es cero porque los ensayos publicados difieren del cálculo",
    basis_maker: "instrucciones del fabricante; el valor inicial es solo un ejemplo inventado",
    basis_method: "ajuste del cálculo",
    fault_not_finite: "no es un número que se pueda usar",
    fault_choice: "no es una de las opciones",
    fault_other: "no es un valor que se pueda usar aquí",
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
    json_too_much: "contiene más de lo que esta página escribe",
    json_kind: "aquí se espera otra clase de valor",
    link_kept: "El caso de la página quedó como estaba.",
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
    set_european_label: "EN 355, EN 360 y EN 795",
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
            hint: "Línea que sale antes de que se trabe la línea retráctil. Enganchada más abajo que el anillo D, solo se traba después de que el anillo baja hasta la línea.",
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
        intermediate_along: FieldText {
            label: "Poste intermedio, a lo largo de la línea",
            hint: "Fuerza a lo largo de la línea que aguanta la cabeza de un poste intermedio. Un cable que se traba en el poste la aumenta.",
        },
        lanyard_strength: FieldText {
            label: "Eslinga, resistencia nominal",
            hint: "La menor de la cuadrilla, totalmente extendida. 29 CFR 1926.502(d)(9) y (d)(13) piden 5,000 lbf (22.2 kN).",
        },
        self_retracting_strength: FieldText {
            label: "Línea autorretráctil, resistencia nominal",
            hint: "La menor de la cuadrilla, totalmente extendida. 29 CFR 1926.502(d)(12) pide 3,000 lbf hasta 2 ft de caída libre, (d)(13) 5,000 lbf si es más.",
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
        below_label: |n, kind| format!("Abajo {n}: {kind}"),
        for_all: |label| format!("{label}, todos"),
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
        own_label: |n| format!("Límite propio {n}"),
        characters: |max| format!("como máximo {max} caracteres"),
    },
};
