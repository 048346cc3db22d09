//! Spanish, as crews in North America speak it.

use super::Texts;

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    caution: "Herramienta de planificación y enseñanza. El diseño, la instalación y el uso de una línea de vida horizontal corresponden a una persona calificada, según los códigos locales y las instrucciones de los fabricantes del equipo. Tenga un plan de rescate listo antes de usarla.",
    // scene
};
