//! Spanish, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    view_fit: "Qué cabe",
    fit_note: "Cada celda es este caso con ese número de usuarios y de postes intermedios a claros iguales, la cuadrilla junta en su peor posición. Muestra el espacio bajo los pies, redondeado hacia abajo. Raya gruesa: de un lado hay espacio y del otro no. Rayado: una parte no llega a la resistencia requerida. Triángulo: se agota un amortiguador. Las partes sin resistencia nominal anotada no cuentan. El mapa compara números; no autoriza el uso.",
    fit_rough: "Primera pasada: solo los lados blando y rígido de las tolerancias; siguen los demás.",
    fit_whole: "Cada celda ya está calculada por completo.",
    fit_running: "Calculando…",
    fit_failed: "No se pudo calcular. Cambie un dato o recargue la página.",
    fit_nothing: "No hay un resultado del cual partir: revise los datos.",
    fit_print: "Imprimir este mapa en una hoja",
    fit_assumed: "Lo que supone el mapa",
    mark_weak: "poca resis\u{ad}tencia",
    mark_used_up: "amorti\u{ad}guador agotado",
    mark_present: "este caso",
    map_load: "Carga este caso",
    ask_heading: "Qué cabe todavía donde está la cuadrilla",
    ask_note: "Se cambia un dato a la vez; lo demás y las posiciones de la cuadrilla quedan. Aquí no se prueban otros lugares de la línea: cargue un caso y lea «En toda la línea». «Cabe» significa que hay espacio bajo los pies y que ninguna parte con resistencia anotada queda por debajo de la requerida. Cada límite que este caso cumple se sigue cumpliendo. No cuentan las partes sin resistencia ni los límites que este caso ya no cumple: vea Verificaciones. Compara números; no autoriza el uso.",
    suggest_heading: "Qué haría falta para que quepa",
    suggest_use: "Aplicar",
    suggest_ratings: "Resistencias por anotar",
    view_why: "Por qué",
    why_note: "Cada barra es el espacio bajo los pies que una causa quita o da; juntas suman la diferencia que se muestra. Lo que solo hacen juntas se reparte por igual entre ellas. Para comparar dos disposiciones use Comparar.",
    why_choice: "Entre",
    why_by_users: "un usuario y toda esta cuadrilla",
    why_by_kept: "el caso guardado y este",
    why_keep: "Guardar este caso para comparar",
    why_kept_now: "Guardado. Cambie algo: aquí aparecen los pasos del caso guardado al nuevo.",
    why_no_kept: "Todavía no hay un caso guardado.",
    why_one_user: "Un solo usuario: agregue uno y aquí aparecen los pasos.",
    why_same_case: "Los dos casos no difieren en nada que importe.",
    why_load_kept: "Cargar el caso guardado",
    compare_why: "Por qué difieren",
    compare_from: "De",
    compare_to: "a",
    why_not_stored: "Este navegador no guarda nada aquí: el caso guardado se pierde al cerrar la página.",
    view_compare: "Comparar",
    compare_note: "Todos los dibujos tienen la misma escala y muestran el punto más bajo con los datos tal cual. Las cifras son las peores de todos los cálculos; el cable es el largo entre postes extremos, sin terminaciones.",
    compare_name: "Nombre de esta disposición",
    compare_add: "Agregar el caso actual",
    compare_remove: "Quitar",
    compare_load: "Cargar",
    compare_link: "Copiar un enlace a estas disposiciones",
    compare_file: "Guardar estas disposiciones (archivo)",
    compare_take: "Abrir un archivo con disposiciones",
    compare_csv: "Guardar las cifras (CSV)",
    compare_png: "Guardar como imagen (PNG)",
    compare_empty: "Todavía no hay disposiciones. Agregue el caso actual, cámbielo y agréguelo otra vez: hasta cuatro, lado a lado.",
    compare_full: "Ya hay cuatro disposiciones; quite una para agregar otra.",
    compare_not_stored: "Este navegador no guarda nada aquí (almacenamiento lleno o bloqueado): estas disposiciones se pierden al cerrar la página. El enlace las conserva.",
    compare_from_link: "Estas disposiciones llegaron con un enlace o un archivo. Las suyas siguen guardadas; se reemplazan solo si cambia estas.",
    compare_own: "Ver mis disposiciones",
    compare_aside: "Otra pestaña de esta página guardó otras disposiciones y no caben todas. Estas se quedan; las otras se apartaron en este dispositivo.",
    compare_kept_damaged: "No se pueden leer las disposiciones guardadas en este navegador:",
    compare_copied: "Enlace copiado.",
    compare_by_hand: "Copie el enlace de aquí:",
    view_sweeps: "Por dato",
    sweeps_note: "Un dato corre por abajo; lo demás queda como en este caso. Cada punto es el peor de todos los cálculos. Círculo: hay espacio. Triángulo: falta. Anillo: este caso. Raya discontinua: ya no queda espacio. Hueco: sin resultado; la lectura y la tabla dicen por qué. Si cambian los claros, cada quien conserva su lugar en su claro y el obstáculo queda bajo el trabajador más cercano. Los tiempos más largos entre caídas se calculan con un movimiento más largo.",
    sweeps_read: "Punto de la gráfica",
    learn_note: "Las preguntas 1 a 5 tratan de un ejemplo inventado. Su caso queda como está.",
    learn_done: "contestada",
    map_corner: "postes intermedios",
    map_present: "usuarios y postes del caso actual",
    stop_not_finished: "alguien todavía baja cuando termina el tiempo simulado",
    stop_absorber: "se agota un amortiguador personal",
    stop_inline: "se agota el amortiguador de la línea",
    stop_steep: "la línea queda más inclinada de lo que el cálculo describe",
    stop_ledger: "las energías del movimiento calculado no cuadran",
    stop_swing: "el péndulo de alguien termina más abajo de lo que cuenta la suma de alturas",
    stop_breaks: "el cable se rompería (la tensión pasa de su resistencia a la rotura)",
    ask_span: "Claro más largo, con el mismo número de claros",
    ask_users: "Más usuarios",
    ask_lanyard: "Eslinga más larga",
    ask_post: "Menor altura de la línea",
    ask_drop: "Menor altura, del suelo al tope de la viga",
    ask_pretension: "Tensión inicial, de menor a mayor",
    ask_this: "Este caso",
    ask_alike: "Con la misma medida para todos",
    suggest_fits: "Ninguna de las reglas de arriba lo impide. Comparan números; no autorizan el uso: lea la respuesta y Verificaciones.",
    suggest_excused: "No se buscó ningún cambio: este caso ya pasa ese límite, y los límites que ya no se cumplen no cuentan aquí. Vea Verificaciones.",
    suggest_change: "Cambio",
    suggest_here: "Espacio aquí",
    suggest_anywhere: "Espacio en toda la línea",
    suggest_strength: "Menor resistencia",
    suggest_no_strength: "ninguna anotada",
    suggest_and: " y ",
    suggest_rank: "Primero el cambio más pequeño. «En toda la línea» es lo peor que se encontró con la cuadrilla en otro lugar y con otras caídas, no un peor demostrado. La persona calificada decide si los fabricantes y la obra admiten un cambio.",
    why_kept: "caso guardado",
    why_present: "este caso",
    why_gear: "eslinga o retráctil (SRL)",
    why_nothing: "ninguna medida mostrada cambia",
    why_table: "Medidas y fuerzas por causa",
    cause_users: "usuarios",
    cause_timing: "quién cae y cuándo",
    cause_places: "posiciones en la línea",
    cause_spans: "claros",
    cause_pretension: "tensión inicial",
    cause_rope: "cable",
    cause_ends: "postes extremos y tirantes",
    cause_inline: "amortiguador de la línea",
    cause_lanyard: "eslingas",
    cause_absorber: "amortiguadores personales",
    cause_mass: "pesos",
    cause_height: "altura de la línea",
    cause_body: "anillos D y arneses",
    cause_margin: "margen",
    cause_drop: "altura de la viga",
    cause_below: "obstáculos abajo",
    cause_others: "incrementos y tolerancias",
    cause_together: "todo lo que difiere, que no se puede separar",
    cause_differences: "pequeñas diferencias dentro de la cuadrilla, y las tolerancias",
    compare_looks: "Todos los dibujos tienen una sola escala y muestran a la cuadrilla en el punto más bajo de la caída.",
    compare_table: "Lo que pide y da cada disposición",
    compare_users: "usuarios",
    compare_posts: "postes",
    compare_tiebacks: "tirantes",
    compare_rope: "cable",
    compare_absorbers: "amortiguadores",
    compare_weakest: "parte más débil",
    compare_anywhere_room: "espacio bajo los pies en toda la línea",
    compare_anywhere_strength: "parte más débil en toda la línea",
    compare_anywhere_ratio: "menor relación de resistencia en toda la línea",
    compare_open: "partes sin resistencia anotada",
    compare_figure: "cifra",
    compare_unit: "unidad",
    compare_unknown: "sin resultado porque",
    compare_end_posts: "postes extremos",
    compare_personal: "amortiguadores personales",
    compare_inline: "amortiguadores de la línea",
    compare_ratio: "menor relación de resistencia",
    compare_required: "relación requerida",
    compare_changed: "Algunos espacios bajo los pies ya no son los de cuando se guardaron o compartieron estas disposiciones: el modelo cambió desde entonces.",
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
    sweep_axis_drop: "tope de viga sobre el suelo",
    learn_users: "Un usuario y luego dos",
    learn_users_ask: "Un usuario está en la línea. Otro se engancha a cerca de 1 m (3 ft) y los dos caen juntos.",
    learn_users_why: "Una sola línea carga a los dos: su tensión sube, baja más, y los amortiguadores se despliegan mientras la línea todavía se mueve.",
    learn_span: "Un claro largo y luego cortos",
    learn_span_ask: "Un solo claro de todo el largo. Ahora se ponen tres postes intermedios, a claros iguales.",
    learn_span_why: "La misma fuerza baja menos un claro corto que uno largo: un poste cercano sostiene la línea.",
    learn_slack: "Una línea tensa y luego floja",
    learn_slack_ask: "La línea está tensa. Ahora se pierde casi toda la tensión inicial.",
    learn_slack_why: "Una línea floja tiene que tensarse antes de detener a alguien, y la persona cae esa distancia de más.",
    learn_mass: "Un trabajador ligero y luego uno pesado",
    learn_mass_ask: "En la línea hay un trabajador ligero. Ahora ocupa el mismo lugar uno pesado con herramienta, con el mismo equipo.",
    learn_mass_why: "El amortiguador frena con la misma fuerza caiga quien caiga. Con más peso se necesita más recorrido, así que se despliega más.",
    learn_gear: "Una eslinga y luego una línea autorretráctil",
    learn_gear_ask: "El trabajador tiene una eslinga. Ahora la reemplaza una línea de vida autorretráctil.",
    learn_gear_why: "Se traba pronto: la caída libre es corta y hay menos que frenar.",
    why_rounding: "redondeo de lo mostrado",
    why_doubtful: "Algunas mezclas intermedias de los dos casos quedan fuera de lo que el cálculo puede describir. Los dos casos no, pero el reparto entre las causas puede no ser exacto.",
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
        map_cell: |users, posts| format!("usuarios: {users}, postes intermedios: {posts}"),
        map_why: |placed, cell, given, answer| {
            format!(
                "Este caso: el mapa junta a la cuadrilla en su peor posición ({placed}): {cell}. Donde este caso la tiene ({given}): {answer}."
            )
        },
        weakest: |part, ratio, required| {
            format!("{part}: {ratio} veces la carga, se requiere {required}")
        },
        stop_footroom: |worker, amount| format!("faltan {amount} bajo {worker}"),
        stop_part: |part| format!("{part}: menos resistencia que la requerida"),
        stop_limit: |limit| format!("límite que no se cumple: {limit}"),
        ask_here: |who, value, low, high| {
            format!("{who}, {value}: cabe, y también todo lo que se probó de {low} a {high}.")
        },
        ask_not_here: |who, value, stop| format!("{who}, {value}: no cabe, {stop}."),
        ask_from_to: |low, high| format!("de {low} a {high}"),
        ask_none: |low, high| format!("ninguna entre {low} y {high}"),
        ask_stopped: |value, stop| format!("Con {value}: {stop}."),
        ask_end: |value| format!("Cabe hasta el final del rango de este dato, {value}."),
        ask_nearest: |below, value| {
            format!(
                "Valor {} más cercano que cabe: {value}.",
                if below { "menor" } else { "mayor" }
            )
        },
        ask_no_nearer: |below| {
            format!(
                "De los valores {} que se probaron, ninguno cabe.",
                if below { "menores" } else { "mayores" }
            )
        },
        ask_range: |low, high| format!("Cabe todo lo que se probó de {low} a {high}."),
        ask_beyond: |low, high, from, to, stop| {
            if from == to {
                format!("Después de un hueco en {from} ({stop}), vuelve a caber de {low} a {high}.")
            } else {
                format!(
                    "Después de un hueco de {from} a {to} ({stop}), vuelve a caber de {low} a {high}."
                )
            }
        },
        ask_step: |step| {
            format!("Se probó en pasos de hasta {step}; un hueco más angosto no se ve.")
        },
        load: |what| format!("Cargar: {what}"),
        suggest_open: |n| {
            format!("Sin contar, por falta de resistencia nominal: {n} partes. Vea Verificaciones.")
        },
        suggest_room: |room| format!("Según este cálculo: {room}."),
        suggest_stopped: |stop| format!("No cabe: {stop}."),
        suggest_stopped_anywhere: |stop| {
            format!("Cabe donde está la cuadrilla, pero no en toda la línea: {stop}.")
        },
        suggest_step: |made, of| format!("Buscando cambios: paso {made} de {of}."),
        suggest_together: |n| {
            if n == 2 {
                "(dos cambios)".to_owned()
            } else {
                format!("({n} cambios)")
            }
        },
        suggest_ratio: |ratio, required| format!("{ratio} de {required}"),
        suggest_weakest: |part| format!("parte más débil: {part}"),
        suggest_tried: |tried| format!("Casos calculados: {tried}."),
        suggest_none: |tried, pairs| {
            format!(
                "Ningún cambio de los que se probaron hace que quepa, ni dos juntos. Casos calculados: {tried}; pares de cambios: {pairs}."
            )
        },
        rating_enter: |label, needed| {
            format!(
                "{label}: anote la resistencia nominal; en la peor posición encontrada hace falta {needed} o más."
            )
        },
        rating_enter_unknown: |label| format!("{label}: anote la resistencia nominal."),
        rating_describe: |part| format!("{part}: describa primero el poste extremo."),
        change_posts: |n, span| {
            if n == 1 {
                format!(
                    "un poste más a la mitad del claro {span}, la cuadrilla en su peor posición"
                )
            } else {
                format!(
                    "{n} postes más en el claro {span}, repartidos, la cuadrilla en su peor posición"
                )
            }
        },
        change_users: |n| {
            if n == 1 {
                "un solo usuario, quede quien quede".to_owned()
            } else {
                format!("solo {n} usuarios, salga quien salga")
            }
        },
        change_lanyard: |to| format!("eslingas de no más de {to}"),
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
        change_absorber: |force| format!("amortiguadores con fuerza promedio de al menos {force}"),
        change_part: |part, strength| format!("{part}: resistencia nominal de {strength} o más"),
        change_breaking: |strength, kept, percent| {
            format!(
                "resistencia a la rotura del cable de {strength} o más (las terminaciones conservan {percent}%: {kept})"
            )
        },
        change_efficiency: |percent, kept| {
            format!(
                "terminaciones que conserven {percent}% de la resistencia a la rotura del cable ({kept}) o más"
            )
        },
        change_under: |offset| {
            format!("todos a no más de {offset} de su conector, a lo largo de la línea")
        },
        change_away: |distance| format!("nadie a menos de {distance} de un poste"),
        change_longer: |duration| format!("movimiento calculado durante {duration}"),
        why_user: |n| format!("se engancha el usuario {n}"),
        why_from_users: |from, to, corner| {
            format!("Espacio bajo los pies, de {from} a {to} (tolerancias: {corner})")
        },
        why_from_kept: |corner| {
            format!(
                "Espacio bajo los pies, del caso guardado a este (tolerancias: {corner} en ambos, que rige este)"
            )
        },
        why_from_layouts: |from, to, corner| {
            format!(
                "Espacio bajo los pies, de {from} a {to} (tolerancias: {corner} en ambas, que rige la segunda)"
            )
        },
        why_unknown: |which, why| {
            format!(
                "Sin resultado ({which}): {why}. Sin él no hay nada que repartir entre las causas."
            )
        },
        why_spans: |n, length| format!("{n} en {length}"),
        why_values: |name, from, to| format!("{name}: {from} → {to}"),
        why_takes: |amount, changes| {
            format!("quita {amount} del espacio bajo los pies ({changes}).")
        },
        why_gives: |amount, changes| format!("da {amount} de espacio bajo los pies ({changes})."),
        why_same: |_, changes| format!("deja igual el espacio bajo los pies ({changes})."),
        why_more: |to, from, amount, cause, step| {
            format!("«{to}» deja {amount} más que «{from}», sobre todo por {cause} ({step}).")
        },
        why_less: |to, from, amount, cause, step| {
            format!("«{to}» deja {amount} menos que «{from}», sobre todo por {cause} ({step}).")
        },
        why_alike: |to, from| format!("«{to}» deja el mismo espacio que «{from}»."),
        compare_sent: |n, title| {
            let layouts = if n == 1 {
                "disposición"
            } else {
                "disposiciones"
            };
            match title {
                "" => format!("Le enviaron: {n} {layouts}"),
                title => format!("Le enviaron: {n} {layouts} de {title}"),
            }
        },
        compare_above: |name| match name {
            Some(name) => format!("La respuesta de arriba es la de «{name}»."),
            None => "La respuesta de arriba es de otro caso.".to_owned(),
        },
        compare_words: |name, users, posts, footroom| {
            format!("{name}: {users}, {posts}, {footroom}")
        },
        compare_posts: |ends, between| format!("extremos: {ends}, intermedios: {between}"),
        compare_absorbers: |personal, line| format!("personales: {personal}, en la línea: {line}"),
        compare_faulty: |n| format!("La disposición {n} no se puede usar."),
        compare_too_long: |count, most| {
            format!(
                "Estas disposiciones no caben en un enlace: tendría {count} caracteres, y a partir de {most} un enlace puede llegar cortado. Guárdelas como archivo y mándelo. Quien lo suelte en esta página ve las mismas disposiciones."
            )
        },
        sweep_point: |value, footroom| format!("{value}: {footroom}"),
        sweep_present: |text| format!("{text} (este caso)"),
        sweep_axis: |unit| format!("espacio bajo los pies, {unit}"),
        learn_question: |question, depth, footroom| {
            format!(
                "{question} Antes, los pies se detienen a {depth} bajo la línea: {footroom}. ¿Dónde se detienen ahora?"
            )
        },
        learn_rooms: |before, now| format!("Espacio bajo los pies, antes: {before}. Ahora: {now}."),
    },
};
