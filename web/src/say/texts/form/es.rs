//! Spanish, as crews in North America speak it.

use super::{FieldText, Fields, Sentences, Texts, explained};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    start_heading: "Empezar con",
    own_line: "Mi propia línea",
    last_cases: "Casos recientes",
    placed_in_the_middle: "La cuadrilla queda junta alrededor del centro del claro más largo, donde la caída suele bajar más. Anote posiciones para cambiarlo.",
    placed_moved: "Los trabajadores fuera de la línea más corta se movieron con ella. Revise sus posiciones.",
    share_copied: "Enlace copiado. Lleva el caso completo; nada se envía a un servidor.",
    share_by_hand: "El portapapeles no está disponible: copie el enlace de aquí.",
    more_inputs: "Los demás datos, cada uno con su valor inicial y la fuente de ese valor",
    range_label: "Rango",
    default_label: "Valor inicial",
    basis_label: "Fuente",
    offline_ready: "Guardado en este dispositivo: desde ahora funciona sin conexión.",
    update_ready: "Hay una versión más nueva.",
    page_add_below: "Agregar un obstáculo",
    page_remove: "Quitar",
    page_link: "El enlace",
    page_part_failed: "No se pudo cargar esta parte de la página. Revise la conexión y recargue la página; el enlace en la barra de direcciones conserva su caso.",
    page_kept_text: "El enlace como se recibió",
    page_add_own: "Agregar un límite propio",
    group_job: "El trabajo",
    group_line: "La línea",
    group_crew: "La cuadrilla",
    group_site: "Viga y margen",
    group_motion: "Ajustes del cálculo",
    title_label: "Obra y viga",
    title_hint: explained("Aparece en el registro y en el enlace. No ponga nombres de personas."),
    rope_label: "Cable",
    rope_hint: explained(
        "Llena valores típicos de diámetro, rigidez, masa y resistencia a la rotura. Vale primero la hoja de datos del fabricante.",
    ),
    rope_own: "mis propios valores",
    rope_galvanised_7x19: "7x19 galvanizado",
    rope_stainless_7x19: "7x19 inoxidable",
    rope_fibre_core_6x19: "6x19 alma de fibra",
    inline_label: "Amortiguador de la línea",
    inline_hint: explained(
        "Limita la tensión dejando que la línea se alargue: menos fuerza en los postes, más deflexión.",
    ),
    inline_place_label: "Amortiguador de la línea, posición",
    inline_place_hint: explained(
        "Se despliega con la tensión de su propio extremo. En ambos extremos: dos iguales, cada uno con los valores de abajo.",
    ),
    inline_place_left: "en el extremo izquierdo",
    inline_place_right: "en el extremo derecho",
    inline_place_both: "en ambos extremos",
    crew_moves_label: "La cuadrilla se mueve libremente",
    crew_moves_hint: "Sí: el peor lugar se busca también con la gente junta, repartida o una persona por claro. No: conservan sus distancias.",
    count_label: "Usuarios en la línea",
    count_hint: explained(
        "Todos los que están enganchados; cada usuario nuevo se coloca junto al último.",
    ),
    below_count_label: "Obstáculos abajo",
    below_count_hint: explained(
        "Camiones, vigas inferiores, escaleras, material apilado: todo lo que sobresale del suelo.",
    ),
    falls_label: "Cae",
    falls_hint: explained("Si este trabajador cae o se queda de pie, enganchado a la línea."),
    falls_yes: "cae",
    falls_no: "se queda de pie",
    gear_label: "Eslinga o SRL",
    gear_hint: explained("Una eslinga de largo fijo o una línea de vida autorretráctil (SRL)."),
    gear_lanyard: "eslinga",
    gear_self_retracting: "línea de vida autorretráctil (SRL)",
    absorber_label: "Amortiguador personal de caída",
    absorber_hint: explained(
        "Limita la fuerza de detención al desplegarse; sin él, solo el estiramiento de la cinta detiene la caída.",
    ),
    shape_label: "Fuerza del amortiguador, dada como",
    shape_hint: explained(
        "El promedio basta cuando no se sabe más. Un pico o una curva deben venir de la hoja del fabricante o de un laboratorio.",
    ),
    shape_average: "fuerza promedio",
    shape_peak: "promedio con un pico inicial",
    shape_curve: "curva de fuerza y extensión",
    curve_label: "Amortiguador, curva de fuerza y extensión",
    curve_hint: explained(
        "Puntos de la hoja del fabricante o de un laboratorio, como extensión: fuerza, separados con punto y coma. Empiece en 0 y avance siempre. En el último punto el amortiguador está totalmente desplegado. Por ejemplo:",
    ),
    choice_on: "sí",
    choice_off: "no",
    kind_label: "Tipo",
    kind_hint: explained("Solo cambia cómo se dibuja y se nombra."),
    middle_label: "Centro en",
    middle_hint: explained(
        "Mueve el obstáculo completo a lo largo de la viga; el ancho queda igual.",
    ),
    mixed: "no es igual en todos; el valor que escriba aquí se aplica a todos",
    empty_rigid: explained("Vacío: este extremo no se mueve."),
    empty_not_evaluated: explained("Vacío: no se conoce; esa resistencia no se verifica."),
    empty_from_geometry: explained("Vacío: sale de la eslinga y las alturas."),
    empty_from_average: explained("Vacío: el promedio ÷ 0.875."),
    empty_from_shape: explained("Vacío: la fuerza más alta del pico o de la curva."),
    empty_stands: explained("Vacío: se queda de pie."),
    basis_site: explained("depende de la obra; no hay valor inicial"),
    basis_common_practice: explained("práctica común del oficio, sin fuente publicada"),
    basis_catalogue: explained("catálogo de cables; la hoja de datos del fabricante va primero"),
    basis_published: explained("norma o artículo publicado"),
    basis_chosen: explained(
        "valor de esta página; no es cero porque los ensayos publicados difieren del cálculo",
    ),
    basis_maker: explained(
        "instrucciones del fabricante; el valor inicial es solo un ejemplo inventado",
    ),
    basis_method: explained("ajuste del cálculo"),
    fault_not_finite: "no es un número utilizable",
    fault_choice: "no es una de las opciones",
    fault_other: "no se puede usar aquí",
    fault_empty: "escriba un valor",
    link_foreign: "Este enlace no es de esta página.",
    link_truncated: "El enlace está incompleto: le falta una parte.",
    link_checksum: "El enlace cambió en el camino: la suma de control no coincide.",
    link_trailing: "Hay algo después del final del enlace.",
    json_end: "termina antes de tiempo",
    json_character: "carácter inesperado",
    json_number: "no es un número utilizable",
    json_text: "texto con algo que no se puede usar",
    json_depth: "demasiados niveles",
    json_too_much: "contiene más de lo que esta página escribe",
    json_kind: "tipo de valor equivocado",
    link_kept: "Su caso en la página quedó como estaba.",
    group_posts: "Postes extremos y tirantes",
    group_strengths: "Resistencias nominales",
    group_tolerances: "Tolerancias",
    group_allowance: "Incremento por el modelo",
    group_temperature: "Temperatura",
    group_sets: "Contra qué se verifica",
    left_post_label: "Poste izquierdo: con detalles",
    left_post_hint: explained(
        "Sí: la rigidez del extremo izquierdo sale del poste y el tirante, y se verifican sus fuerzas. No: se usa la rigidez anotada con la línea.",
    ),
    right_post_label: "Poste derecho: con detalles",
    right_post_hint: explained(
        "Sí: la rigidez del extremo derecho sale del poste y el tirante, y se verifican sus fuerzas. No: se usa la rigidez anotada con la línea.",
    ),
    left_tieback_label: "Tirante izquierdo",
    left_tieback_hint: explained(
        "Va de la cabeza del poste a la viga, detrás del poste; toma casi toda la fuerza y comprime el poste.",
    ),
    right_tieback_label: "Tirante derecho",
    right_tieback_hint: explained(
        "Va de la cabeza del poste a la viga, detrás del poste; toma casi toda la fuerza y comprime el poste.",
    ),
    set_us_label: "29 CFR 1926 subparte M (EE. UU.)",
    set_us_hint: explained("Verifica con los límites de este reglamento. Viene activado."),
    set_european_label: "EN 355, EN 360 y EN 795",
    set_european_hint: explained(
        "Pone esta caída junto a límites que un producto debe cumplir en su propia prueba de laboratorio.",
    ),
    own_count_label: "Límites propios",
    own_count_hint: explained(
        "De un código local, del dueño de la obra o de un fabricante, cada uno con su fuente.",
    ),
    own_label_label: "Nombre",
    own_label_hint: explained("Nombre que aparece en la tabla de verificaciones."),
    own_quantity_label: "Qué limita",
    own_quantity_hint: explained(
        "Se compara el mayor de trabajadores y extremos; para el espacio bajo los pies, el menor.",
    ),
    own_limit_label: "Límite",
    own_limit_hint: explained("Máximo; para el espacio bajo los pies, mínimo."),
    own_reference_label: "Fuente",
    own_reference_hint: explained(
        "Cláusula, plano o carta, para que otra persona lo pueda buscar.",
    ),
    own_arrest_force: "fuerza de detención sobre un trabajador",
    own_free_fall: "caída libre",
    own_deceleration_distance: "distancia de desaceleración",
    own_required_depth: "altura libre requerida bajo la línea, con el margen",
    own_footroom: "espacio bajo los pies, al menos",
    own_line_tension: "tensión en cualquier punto de la línea",
    own_end_tension: "tensión en un extremo de la línea",
    own_tieback_tension: "tensión de un tirante",
    own_post_compression: "compresión de un poste extremo",
    own_post_moment: "momento en la base de un poste extremo",
    own_intermediate_post_load: "carga hacia abajo en un poste intermedio",
    fields: Fields {
        spans: FieldText {
            label: "Claros",
            hint: explained(
                "De poste a poste, desde la izquierda, como 9 + 9; un claro más largo se deflecta más.",
            ),
        },
        height_above_beam: FieldText {
            label: "Altura de la línea sobre la viga",
            hint: explained(
                "Altura de la línea en sus apoyos; una línea más alta acorta la caída libre.",
            ),
        },
        pretension: FieldText {
            label: "Tensión inicial",
            hint: explained(
                "Tensión de la línea sin nadie. Con más: menos deflexión y más fuerza en los postes.",
            ),
        },
        diameter: FieldText {
            label: "Diámetro del cable",
            hint: explained(
                "Como se vende. Da nombre al cable y se dibuja; lo que cuenta es la rigidez de abajo.",
            ),
        },
        axial_stiffness: FieldText {
            label: "Rigidez del cable, EA",
            hint: explained(
                "Tensión ÷ deformación unitaria. Un cable que se estira más se deflecta más.",
            ),
        },
        mass_per_length: FieldText {
            label: "Masa del cable por metro o pie",
            hint: explained(
                "Da flecha en reposo y hace que la línea se pase de largo en una caída.",
            ),
        },
        breaking_force: FieldText {
            label: "Resistencia a la rotura del cable",
            hint: explained(
                "Resistencia mínima a la rotura de la hoja de datos. Se usa en las verificaciones de resistencia; con una tensión mayor no hay resultado.",
            ),
        },
        inline_yield: FieldText {
            label: "Amortiguador de la línea, fuerza de despliegue",
            hint: explained("Tensión de la línea con la que empieza a desplegarse."),
        },
        inline_extension: FieldText {
            label: "Amortiguador de la línea, extensión máxima",
            hint: explained("Cuando se agota, la línea vuelve a ser rígida."),
        },
        left_end: FieldText {
            label: "Extremo izquierdo, rigidez",
            hint: explained(
                "Fuerza horizontal ÷ movimiento del poste extremo con su tirante. Un extremo más flexible da más deflexión.",
            ),
        },
        right_end: FieldText {
            label: "Extremo derecho, rigidez",
            hint: explained(
                "Fuerza horizontal ÷ movimiento del poste extremo con su tirante. Un extremo más flexible da más deflexión.",
            ),
        },
        position: FieldText {
            label: "Posición en la línea",
            hint: explained("Del poste extremo izquierdo al conector, a lo largo de la línea."),
        },
        mass: FieldText {
            label: "Peso con herramienta",
            hint: explained(
                "Cuerpo, ropa y herramienta juntos. Con más peso se baja más y se jala más fuerte.",
            ),
        },
        dring_height: FieldText {
            label: "Del anillo D a la suela",
            hint: explained(
                "Altura del anillo D con la persona de pie. Una persona más alta necesita más altura libre.",
            ),
        },
        harness_stretch: FieldText {
            label: "Estiramiento del arnés",
            hint: explained("Lo que se estira el arnés y sube el anillo D; se suma completo."),
        },
        fall_time: FieldText {
            label: "Momento de la caída",
            hint: explained(
                "Se cuenta desde la primera caída. Una segunda caída en una línea ya cargada puede bajar más.",
            ),
        },
        gear_length: FieldText {
            label: "Longitud de la eslinga",
            hint: explained(
                "Con el amortiguador cerrado y los conectores. Todo cuenta en la caída libre y en la suma de alturas.",
            ),
        },
        lock_distance: FieldText {
            label: "Trabado de la retráctil",
            hint: explained(
                "Línea que sale en la caída antes de que se trabe la retráctil. Enganchada más abajo que el anillo D, se traba cuando el anillo ya bajó hasta la línea.",
            ),
        },
        gear_stiffness: FieldText {
            label: "Rigidez de la cinta y el arnés",
            hint: explained("Fuerza ÷ estiramiento, hasta la fuerza del amortiguador."),
        },
        average_force: FieldText {
            label: "Amortiguador, fuerza promedio",
            hint: explained(
                "Fuerza promedio con que se despliega. Con una menor se extiende más; con una mayor jala más.",
            ),
        },
        maximum_force: FieldText {
            label: "Amortiguador, fuerza máxima",
            hint: explained("Fuerza máxima de despliegue, de la hoja del fabricante."),
        },
        max_extension: FieldText {
            label: "Amortiguador, extensión máxima",
            hint: explained("Cuando se agota, la eslinga se vuelve rígida y la fuerza sube."),
        },
        locked_stiffness: FieldText {
            label: "Amortiguador agotado, rigidez",
            hint: explained(
                "Fuerza ÷ estiramiento de la eslinga con el amortiguador totalmente desplegado.",
            ),
        },
        peak_force: FieldText {
            label: "Amortiguador, pico inicial",
            hint: explained(
                "Fuerza con que el amortiguador empieza a desplegarse. Sube la tensión de la línea.",
            ),
        },
        peak_over: FieldText {
            label: "Pico inicial, extensión",
            hint: explained(
                "Extensión en que la fuerza baja desde el pico. Lo que sigue conserva el promedio sobre la extensión máxima.",
            ),
        },
        free_fall: FieldText {
            label: "Distancia de caída libre, si se conoce",
            hint: explained("Anótela solo si la conoce de otra forma."),
        },
        beam_top: FieldText {
            label: "Tope de viga sobre el suelo",
            hint: explained("Altura del tope de la viga sobre el suelo que tiene debajo."),
        },
        beam_depth: FieldText {
            label: "Peralte de la viga",
            hint: explained("Solo se dibuja; no cambia ningún número."),
        },
        margin: FieldText {
            label: "Margen",
            hint: explained("Espacio que debe quedar libre bajo los pies por lo que nadie midió."),
        },
        reach: FieldText {
            label: "Alcance a cada lado",
            hint: explained(
                "Qué tan lejos del conector, a lo largo de la viga, puede quedar quien cae; las caídas en péndulo piden más.",
            ),
        },
        below_from: FieldText {
            label: "Borde izquierdo en",
            hint: explained("Desde el poste extremo izquierdo; negativo si queda a su izquierda."),
        },
        below_to: FieldText {
            label: "Borde derecho en",
            hint: explained("Desde el poste extremo izquierdo."),
        },
        below_height: FieldText {
            label: "Parte alta sobre el suelo",
            hint: explained("Su punto más alto, con la carga."),
        },
        damping: FieldText {
            label: "Fricción interna (amortiguamiento)",
            hint: explained("Fricción dentro del cable; con 0 se pasa más de largo."),
        },
        duration: FieldText {
            label: "Tiempo simulado",
            hint: explained("Lo bastante largo para que todos lleguen al punto más bajo."),
        },
        offset_along: FieldText {
            label: "Desplazamiento a lo largo de la línea",
            hint: explained(
                "Qué tan a un lado del conector está la persona, positivo a la derecha. Lejos del conector, la caída es en péndulo.",
            ),
        },
        edge_distance: FieldText {
            label: "De la línea al borde de la viga",
            hint: explained(
                "A lo ancho de la viga, hasta el borde por donde cae. Cuanto más lejos, más se apoya la eslinga o retráctil en el borde y más péndulo hay.",
            ),
        },
        left_bending: FieldText {
            label: "Poste izquierdo, rigidez a flexión EI",
            hint: explained(
                "Módulo por momento de inercia del poste en la dirección de la línea. Un poste más flexible se mueve más.",
            ),
        },
        left_set_back: FieldText {
            label: "Tirante izquierdo, distancia detrás",
            hint: explained(
                "De la base del poste hacia atrás hasta el anclaje del tirante. Igual a la altura del poste da 45°.",
            ),
        },
        left_tieback_stiffness: FieldText {
            label: "Tirante izquierdo, rigidez EA",
            hint: explained("De la correa o el cable. Si se estira más, deja más fuerza al poste."),
        },
        right_bending: FieldText {
            label: "Poste derecho, rigidez a flexión EI",
            hint: explained(
                "Módulo por momento de inercia del poste en la dirección de la línea. Un poste más flexible se mueve más.",
            ),
        },
        right_set_back: FieldText {
            label: "Tirante derecho, distancia detrás",
            hint: explained(
                "De la base del poste hacia atrás hasta el anclaje del tirante. Igual a la altura del poste da 45°.",
            ),
        },
        right_tieback_stiffness: FieldText {
            label: "Tirante derecho, rigidez EA",
            hint: explained("De la correa o el cable. Si se estira más, deja más fuerza al poste."),
        },
        termination_efficiency: FieldText {
            label: "Terminación del cable, eficiencia",
            hint: explained(
                "Parte de la resistencia a la rotura que conserva la terminación. 0.8 es para grapas (perros) puestas como dice su fabricante.",
            ),
        },
        end_anchorage: FieldText {
            label: "Anclaje de cada extremo",
            hint: explained(
                "Resistencia nominal de aquello a lo que se fija la línea en la cabeza del poste.",
            ),
        },
        post_moment: FieldText {
            label: "Poste extremo, momento",
            hint: explained("Momento nominal del poste y de su fijación a la viga."),
        },
        post_compression: FieldText {
            label: "Poste extremo, compresión",
            hint: explained("Compresión nominal del poste. Un tirante empinado lo comprime mucho."),
        },
        tieback_strength: FieldText {
            label: "Tirante",
            hint: explained("Resistencia nominal de la correa o el cable con sus herrajes."),
        },
        tieback_anchorage: FieldText {
            label: "Anclaje del tirante",
            hint: explained(
                "Resistencia nominal de aquello a lo que se ancla en la viga, en la dirección del tirante.",
            ),
        },
        intermediate_post: FieldText {
            label: "Poste intermedio, carga hacia abajo",
            hint: explained("Carga nominal hacia abajo en la cabeza de un poste intermedio."),
        },
        intermediate_along: FieldText {
            label: "Poste intermedio, a lo largo",
            hint: explained(
                "Fuerza nominal a lo largo de la línea en la cabeza de un poste intermedio. Un cable que se traba en el poste la aumenta.",
            ),
        },
        lanyard_strength: FieldText {
            label: "Eslinga, resistencia nominal",
            hint: explained(
                "La menor de la cuadrilla, totalmente extendida. 29 CFR 1926.502(d)(9) y (d)(13) piden 5,000 lbf (22.2 kN).",
            ),
        },
        self_retracting_strength: FieldText {
            label: "Retráctil (SRL), resistencia",
            hint: explained(
                "La menor de la cuadrilla, totalmente extendida. 29 CFR 1926.502(d)(12) pide 3,000 lbf (13.3 kN) hasta 2 ft (0.61 m) de caída libre, (d)(13) 5,000 lbf (22.2 kN) si es más.",
            ),
        },
        required_ratio: FieldText {
            label: "Relación requerida",
            hint: explained(
                "Resistencia nominal ÷ carga que cada parte debe conservar. 2 es de 29 CFR 1926.502(d)(8).",
            ),
        },
        tolerance_mass: FieldText {
            label: "Peso, puede ser mayor en",
            hint: explained("Con más peso se baja más y se jala más fuerte. Escriba 0.10 o 10%."),
        },
        tolerance_absorber: FieldText {
            label: "Amortiguador, puede ser menor en",
            hint: explained(
                "Un amortiguador más débil se despliega más. Un pico o una curva también pueden ser mayores en lo mismo. Escriba 0.10 o 10%.",
            ),
        },
        tolerance_pretension: FieldText {
            label: "Tensión inicial, más o menos",
            hint: explained(
                "Con menos hay más deflexión, con más hay más fuerza. Escriba 0.10 o 10%.",
            ),
        },
        tolerance_rope: FieldText {
            label: "Rigidez del cable, más o menos",
            hint: explained("Un cable nuevo se estira más que uno usado. Escriba 0.10 o 10%."),
        },
        tolerance_ends: FieldText {
            label: "Extremos, más o menos",
            hint: explained(
                "Postes, fijaciones y concreto se mueven más de lo que dice el plano. Escriba 0.10 o 10%.",
            ),
        },
        tolerance_inline: FieldText {
            label: "Amortiguador de la línea, más o menos",
            hint: explained(
                "Si se despliega antes hay más deflexión, si después hay más fuerza. Escriba 0.10 o 10%.",
            ),
        },
        allowance_clearance: FieldText {
            label: "Se suma a las longitudes",
            hint: explained(
                "Las caídas reales difieren de las calculadas: en pruebas, los amortiguadores se extendieron hasta 70% más que con el método de la norma. Escriba 0.10 o 10%.",
            ),
        },
        allowance_tension: FieldText {
            label: "Se suma a la tensión",
            hint: explained(
                "Se suma a la tensión que se muestra y se verifica; la altura libre no cambia. Las pruebas hallaron métodos manuales desviados hasta 17%. Escriba 0.10 o 10%.",
            ),
        },
        temperature_installed: FieldText {
            label: "Cuando se tensó la línea",
            hint: explained("Temperatura del cable cuando se fijó la tensión inicial."),
        },
        temperature_today: FieldText {
            label: "Hoy",
            hint: explained(
                "El frío tensa el cable y el calor lo afloja. La caída se calcula con la tensión de la línea a esta temperatura.",
            ),
        },
    },
    say: Sentences {
        below_label: |n, kind| format!("Obstáculo {n}: {kind}"),
        for_all: |label| format!("{label}, todos"),
        out_of_range: |value, min, max| format!("{value} está fuera de {min} a {max}"),
        range: |min, max| format!("{min} a {max}"),
        count: |found, min, max| format!("{found} está fuera de {min} a {max}"),
        text_too_long: |found, max| format!("{found} caracteres; caben {max} como máximo"),
        lanyard_too_short: |value, min| {
            format!("{value} es muy corta para ponerse de pie: al menos {min}")
        },
        slack_at_rest: |value, min| {
            format!("{value} deja la línea floja sin nadie: al menos {min}")
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
