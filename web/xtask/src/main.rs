//! Build tool.
fn main() {}
