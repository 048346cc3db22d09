//! Spanish, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    view_fit: "Qué cabe: usuarios y postes",
    fit_note: "Cada celda es este caso con ese número de usuarios y de postes intermedios a claros iguales, la cuadrilla junta en su peor lugar. Se lee: espacio bajo los pies, redondeado hacia abajo. Una raya gruesa entre celdas: de un lado hay espacio y del otro no. Rayado: una parte no llega a la resistencia requerida. Triángulo: un amortiguador se agota. Es una comparación de números, no una autorización.",
    fit_rough: "Primera imagen, con el lado blando y el rígido de las tolerancias; siguen los demás cálculos.",
    fit_whole: "Cada celda tiene todos los cálculos de la respuesta.",
    fit_running: "Calculando…",
    fit_failed: "No se pudo calcular. Cambie un dato o vuelva a cargar la página.",
    fit_nothing: "No hay un resultado del cual partir: vea los datos.",
    fit_print: "Imprimir este mapa en una hoja",
    fit_assumed: "Lo que supone el mapa",
    mark_weak: "parte débil",
    mark_used_up: "amorti\u{ad}guador agotado",
    mark_present: "este caso",
    map_load: "Carga esta disposición",
    ask_heading: "Qué cabe todavía",
    ask_note: "Se cambia un dato a la vez y lo demás queda, la cuadrilla donde está. Cabe significa: queda espacio bajo los pies, ninguna parte por debajo de su resistencia requerida, ningún límite pasado que este caso cumple. Compara números; no es una autorización.",
    suggest_heading: "Qué haría que quepa",
    suggest_use: "Hacer este cambio",
    view_why: "Por qué: qué medida creció",
    why_note: "Cada barra es lo que una causa le hace al espacio bajo los pies; juntas dan exactamente la diferencia que se muestra. Lo que las causas hacen solo juntas se reparte por igual. Dos disposiciones se contrastan en Comparar.",
    why_choice: "Entre",
    why_by_users: "un usuario y toda esta cuadrilla",
    why_by_kept: "el caso guardado y este",
    why_keep: "Guardar este caso para comparar",
    why_kept_now: "Guardado. Cambie algo: aquí aparecen los pasos del caso guardado al nuevo.",
    why_no_kept: "Todavía no hay un caso guardado.",
    why_one_user: "Un solo usuario: agregue uno y aquí aparecen los pasos.",
    why_same_case: "Los dos casos no difieren en nada que cuente.",
    why_load_kept: "Cargar el caso guardado",
    compare_why: "Por qué difieren",
    compare_from: "De",
    compare_to: "a",
    why_not_stored: "El navegador no guarda nada aquí: el caso guardado dura hasta cerrar la página.",
    view_compare: "Comparar: disposiciones lado a lado",
    compare_note: "Todos los dibujos tienen la misma escala y muestran el instante más bajo con los datos como se dieron. Las cifras son las peores de todos los cálculos; el cable es el tramo entre postes extremos, sin terminaciones.",
    compare_name: "Nombre de esta disposición",
    compare_add: "Agregar el caso presente",
    compare_remove: "Quitar",
    compare_load: "Cargar",
    compare_link: "Copiar un enlace a estas disposiciones",
    compare_file: "Guardar estas disposiciones (archivo)",
    compare_take: "Abrir un archivo con disposiciones",
    compare_csv: "Guardar las cifras (CSV)",
    compare_png: "Guardar como imagen (PNG)",
    compare_empty: "Todavía no hay disposiciones. Agregue el caso presente, cámbielo y agréguelo otra vez: hasta cuatro lado a lado.",
    compare_full: "Ya hay cuatro disposiciones; quite una para agregar otra.",
    compare_not_stored: "El navegador no guarda nada aquí (almacenamiento lleno o bloqueado): estas disposiciones duran hasta cerrar la página. El enlace las conserva.",
    compare_from_link: "Estas disposiciones llegaron con un enlace o un archivo. Las suyas siguen guardadas; se reemplazan solo si cambia estas.",
    compare_own: "Ver mis disposiciones",
    compare_aside: "Otra pestaña de esta página guardó otras disposiciones y no caben todas. Estas se quedan; las otras se apartaron en este dispositivo.",
    compare_kept_damaged: "No se pueden leer las disposiciones guardadas en este navegador:",
    compare_copied: "El enlace está en el portapapeles.",
    compare_by_hand: "Copie el enlace de aquí:",
    view_sweeps: "Gráficas: espacio bajo los pies según cada dato",
    sweeps_note: "Un dato va a lo ancho y lo demás queda como en este caso; cada punto es el peor de todos los cálculos. Círculo: hay espacio. Triángulo: falta. Anillo: este caso. Raya discontinua: ya no queda espacio. Hueco: ahí no se conoce el espacio; la lectura y la tabla dicen por qué. Con otros claros cada quien conserva su lugar en su claro, y lo que hay abajo, su lugar bajo el trabajador más cercano. Los tiempos más largos entre caídas se calculan con un movimiento más largo: después de la última caída, tan largo como en este caso.",
    sweeps_read: "Punto de la gráfica",
    view_learn: "Aprender: primero adivine",
    learn_note: "Cinco preguntas sobre el ejemplo inventado. Mueva la marca a donde cree que quedará el espacio bajo los pies y suelte. Lo que conteste se queda solo en este aparato.",
    learn_guess: "Mi cálculo a ojo",
    learn_go: "Soltar",
    learn_see: "Ver el principio en el dibujo",
    learn_again: "Adivinar otra vez",
    learn_done: "contestada",
    map_corner: "postes intermedios",
    map_present: "usuarios y postes del caso presente",
    stop_not_finished: "alguien todavía baja cuando termina el tiempo simulado",
    stop_absorber: "se agota un amortiguador personal",
    stop_inline: "se agota el amortiguador de la línea",
    stop_steep: "la línea queda más inclinada de lo que el cálculo describe",
    stop_ledger: "las energías del movimiento calculado no cuadran",
    stop_swing: "el péndulo de alguien termina más abajo de lo que cuenta la suma de alturas",
    stop_breaks: "la tensión pasa de la fuerza de rotura del cable",
    ask_span: "Claro más largo, con el mismo número de claros",
    ask_users: "Más usuarios",
    ask_lanyard: "Eslinga más larga",
    ask_post: "Menor altura de poste",
    ask_drop: "Menor altura, del piso a la cara superior de la viga",
    ask_pretension: "Tensión inicial, de menor a mayor",
    suggest_fits: "Según este cálculo cabe como está; no hay nada que proponer.",
    suggest_none: "Ninguno de los cambios sueltos que se probaron hace que quepa: hace falta más de uno.",
    suggest_rank: "Cada uno se resolvió con todos los cálculos antes de ponerlo en la lista; primero el cambio más pequeño. Si los fabricantes y el sitio lo admiten, lo decide la persona calificada.",
    why_kept: "caso guardado",
    why_present: "este caso",
    why_gear: "eslinga o línea retráctil",
    why_nothing: "ninguna medida mostrada cambia",
    why_table: "Medidas y fuerzas por causa",
    cause_users: "usuarios",
    cause_timing: "quién cae y cuándo",
    cause_places: "lugares en la línea",
    cause_spans: "claros",
    cause_pretension: "tensión inicial",
    cause_rope: "cable",
    cause_ends: "postes extremos y tirantes",
    cause_inline: "amortiguador en la línea",
    cause_lanyard: "eslingas",
    cause_absorber: "amortiguadores personales",
    cause_mass: "masas",
    cause_height: "altura de la línea",
    cause_body: "anillos D y arneses",
    cause_margin: "margen",
    cause_drop: "altura de la viga",
    cause_below: "lo que hay abajo",
    cause_others: "suplementos y tolerancias",
    cause_together: "todo lo que difiere, que no se puede separar",
    cause_differences: "pequeñas diferencias dentro de la cuadrilla, y las tolerancias",
    compare_table: "Lo que pide y da cada disposición",
    compare_users: "usuarios",
    compare_posts: "postes",
    compare_tiebacks: "tirantes",
    compare_rope: "cable",
    compare_absorbers: "amortiguadores",
    compare_weakest: "parte más débil",
    compare_open: "partes sin evaluar",
    compare_figure: "cifra",
    compare_unit: "unidad",
    compare_unknown: "espacio bajo los pies no conocido porque",
    compare_end_posts: "postes extremos",
    compare_personal: "amortiguadores personales",
    compare_inline: "amortiguadores en la línea",
    compare_ratio: "menor relación de resistencia",
    compare_required: "relación requerida",
    compare_changed: "No todos los espacios bajo los pies son los que tenían estas disposiciones cuando se guardaron o compartieron: el modelo cambió desde entonces.",
    compare_too_many: "Tiene más disposiciones, o nombres más largos, de los que esta página admite.",
    why_length: "medida o fuerza",
    sweep_users: "Espacio bajo los pies según usuarios",
    sweep_span: "Espacio bajo los pies según el claro",
    sweep_pretension: "Espacio bajo los pies según la tensión inicial",
    sweep_delay: "Espacio bajo los pies según el tiempo entre caídas",
    sweep_drop: "Espacio bajo los pies según la altura de la viga",
    sweep_value: "valor",
    sweep_axis_span: "longitud de cada claro",
    sweep_axis_delay: "tiempo entre una caída y la siguiente",
    sweep_axis_drop: "altura de la viga sobre el piso",
    learn_users: "Un usuario y luego dos",
    learn_users_ask: "Un usuario está en la línea. Otro se conecta a un metro y los dos caen juntos.",
    learn_users_why: "Una sola línea carga a los dos: su tensión crece, baja más, y los amortiguadores se abren mientras la línea todavía oscila.",
    learn_span: "Un claro largo y luego cortos",
    learn_span_ask: "Un solo claro de todo el largo. Ahora se ponen tres postes intermedios, a claros iguales.",
    learn_span_why: "La misma fuerza baja menos un claro corto que uno largo: un poste cercano sostiene la línea.",
    learn_slack: "Una línea tensa y luego floja",
    learn_slack_ask: "La línea está tensa. Ahora se pierde casi toda la tensión inicial.",
    learn_slack_why: "Una línea floja primero tiene que estirarse antes de detener a alguien, y esa bajada se pierde.",
    learn_mass: "Un trabajador ligero y luego uno pesado",
    learn_mass_ask: "En la línea hay un trabajador ligero. Ahora ocupa el mismo lugar uno pesado con herramienta, con el mismo equipo.",
    learn_mass_why: "El amortiguador frena con la misma fuerza caiga quien caiga: más masa necesita más camino, así que se abre más.",
    learn_gear: "Una eslinga y luego una línea autorretráctil",
    learn_gear_ask: "El trabajador tiene una eslinga. Ahora la reemplaza una línea de vida autorretráctil.",
    learn_gear_why: "Se traba pronto: la caída libre es corta y hay menos que frenar.",
    why_rounding: "redondeo de lo mostrado",
    why_doubtful: "Algunas mezclas de los dos casos, en el camino de uno a otro, quedan fuera de lo que el cálculo describe. Los dos extremos no, pero el reparto de la diferencia entre las causas puede no ser exacto.",
    say: Sentences {
        users: |n| {
            if n == 1 {
                "1 usuario".to_owned()
            } else {
                format!("{n} usuarios")
            }
        },
        posts: |n| match n {
            0 => "sin poste intermedio".to_owned(),
            1 => "1 poste intermedio".to_owned(),
            _ => format!("{n} postes intermedios"),
        },
        map_row: |posts, span| format!("{posts}, claros de {span}"),
        map_caption: |title, length| {
            format!(
                "Espacio bajo los pies según usuarios y postes intermedios: {title}, línea de {length}"
            )
        },
        map_cell: |users, posts| format!("con usuarios: {users}, postes intermedios: {posts}"),
        weakest: |part, ratio, required| {
            format!("{part}: {ratio} veces la carga, se requiere {required}")
        },
        stop_footroom: |worker, amount| format!("faltan {amount} bajo {worker}"),
        stop_part: |part| format!("{part}: menos resistencia que la requerida"),
        stop_limit: |limit| format!("límite que no se cumple: {limit}"),
        ask_present: |value| format!("este caso: {value}"),
        ask_from_to: |low, high| format!("de {low} a {high}"),
        ask_none: |low, high| format!("ninguna de {low} a {high}"),
        ask_none_because: |stop| format!("Aquí lo detiene: {stop}."),
        ask_stopped: |value, stop| format!("Con {value}: {stop}."),
        ask_end: |value| format!("Nada lo detiene hasta el final del intervalo del dato, {value}."),
        ask_others: |list| format!("También caben valores más allá de un hueco: {list}."),
        load: |what| format!("Cargar: {what}"),
        suggest_stopped: |stop| format!("No cabe: {stop}."),
        change_posts: |n, span| {
            if n == 1 {
                format!("un poste más a la mitad del claro {span}")
            } else {
                format!("{n} postes más en el claro {span}, repartidos")
            }
        },
        change_users: |n| {
            if n == 1 {
                "un solo usuario, sea quien sea".to_owned()
            } else {
                format!("solo {n} usuarios, se quite quien se quite")
            }
        },
        change_lanyard: |to| format!("ninguna eslinga de más de {to}"),
        change_pretension: |more, to, from| {
            format!(
                "{} tensión inicial: {to} en lugar de {from}",
                if more { "más" } else { "menos" }
            )
        },
        change_height: |to, from| format!("línea a {to} sobre la viga en lugar de {from}"),
        change_rope: |rope| format!("cable más grueso: {rope}"),
        change_lower: |thing, to, from| format!("{thing}: bajar a {to} en lugar de {from}"),
        change_remove: |thing| format!("{thing}: quitarlo de ahí"),
        change_absorber: |force| format!("amortiguadores con fuerza media de {force} por lo menos"),
        change_part: |part, strength| {
            format!("{part}: resistencia nominal de {strength} por lo menos")
        },
        why_user: |n| format!("entra el usuario {n} a la línea"),
        why_from_users: |from, to, corner| {
            format!(
                "Espacio bajo los pies, de {from} a {to} (tolerancias: {corner}, que gobierna este caso)"
            )
        },
        why_from_kept: |corner| {
            format!(
                "Espacio bajo los pies, del caso guardado a este (tolerancias: {corner} en ambos, que gobierna este)"
            )
        },
        why_from_layouts: |from, to, corner| {
            format!(
                "Espacio bajo los pies, de {from} a {to} (tolerancias: {corner} en ambas, que gobierna la segunda)"
            )
        },
        why_unknown: |which, why| {
            format!(
                "No se conoce el espacio bajo los pies ({which}): {why}. Sin él no hay nada que repartir entre las causas."
            )
        },
        why_spans: |n, length| format!("{n} en {length}"),
        why_values: |name, from, to| format!("{name}: {from} → {to}"),
        why_takes: |amount, changes| {
            format!("quita {amount} del espacio bajo los pies ({changes}).")
        },
        why_gives: |amount, changes| format!("da {amount} de espacio bajo los pies ({changes})."),
        why_same: |_, changes| format!("deja igual el espacio bajo los pies ({changes})."),
        compare_words: |name, users, posts, footroom| {
            format!("{name}: {users}, {posts}, {footroom}")
        },
        compare_posts: |ends, between| format!("extremos: {ends}, intermedios: {between}"),
        compare_absorbers: |personal, line| format!("personales: {personal}, en la línea: {line}"),
        compare_faulty: |n| format!("El caso de la disposición {n} no se puede usar."),
        compare_too_long: |count, most| {
            format!(
                "Estas disposiciones no caben en un enlace: tendría {count} caracteres, y a partir de {most} un enlace puede llegar cortado. Guárdelas como archivo y mande ese: al soltarlo en esta página muestra lo mismo."
            )
        },
        sweep_point: |value, footroom| format!("{value}: {footroom}"),
        sweep_present: |text| format!("{text} (este caso)"),
        sweep_axis: |unit| format!("espacio bajo los pies, {unit}"),
        learn_question: |question, footroom| format!("{question} Antes: {footroom}. ¿Después?"),
        learn_exact: |is| format!("En realidad {is}: justo lo que calculó."),
        learn_more: |guess, is, amount| {
            format!("Su cálculo: {guess}; en realidad {is}. Es {amount} menos de lo que pensó.")
        },
        learn_less: |guess, is, amount| {
            format!("Su cálculo: {guess}; en realidad {is}. Es {amount} más de lo que pensó.")
        },
    },
};
