//! A page with its whole answer, also where that is made beside the page; included by those who ask for it.

use footroom_web::page::Page;

/// Makes all of the answer. What takes long the page makes itself, as where there is no worker.
pub fn finish(page: &mut Page) {
    page.finish();
    while let Some(wanted) = page.next_beside() {
        page.take_beside(wanted.number, &[]);
    }
    page.finish();
}
