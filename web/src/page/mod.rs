//! What comes once the drop is shown, a folder a view.

pub mod compare;
pub mod explain;
pub mod fit;
pub mod kept;
pub mod office;
pub mod plan;
pub mod planner;
pub mod record;
pub mod shapes;
