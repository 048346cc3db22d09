//! What the page is made of, in Rust.
//!
//! | room | what stands in it | names |
//! | --- | --- | --- |
//! | [`wire`] | how a case travels: links, JSON, numbers as text | |
//! | [`say`] | words, and numbers as they are shown and typed | `wire` |
//! | [`first`] | what the first view needs: the desk, the answer, the drop | `say`, `wire` |
//! | [`mod@page`] | all else, a folder a view, and the one object that owns it | all of them |
//! | `boundary` | what the page's scripts call | all of them |
//!
//! It is built into three modules, so that nothing waits for what it does not need: one of `first`
//! alone; with the feature `office` the whole page, which takes its place once the drop is shown; with
//! the feature `planner` what takes many runs, for the workers beside the page.

mod boundary;
#[cfg(doc)]
#[doc = include_str!("../DESIGN.md")]
pub mod design {}
pub mod first;
pub mod order;
pub mod page;
pub mod say;
pub mod wire;

#[cfg(any(feature = "office", not(feature = "planner")))]
pub use boundary::page::{Page, version};
#[cfg(feature = "planner")]
pub use boundary::planner::Planner;
#[cfg(feature = "office")]
pub use boundary::record::SiteBook;

/// An allocator of half the bytes of the library's.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();
