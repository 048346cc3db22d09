//! Spanish.

use super::Texts;

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    direct_heading: "Mover cosas en el dibujo",
    direct_help: "Las flechas lo mueven, con Mayús diez veces más; Re Pág y Av Pág pasan al siguiente.",
    direct_hint: "Arrastre un trabajador, un poste, la línea, un obstáculo o sus bordes.",
    direct_post: "Posición del poste intermedio {}",
};
