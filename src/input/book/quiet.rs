//! A library that gives up on a damaged workbook: the workbook is refused, and nothing else is seen of it.

use std::cell::Cell;
use std::panic::{AssertUnwindSafe, catch_unwind, set_hook, take_hook};
use std::sync::Once;

thread_local! {
    static QUIET: Cell<bool> = const { Cell::new(false) };
}

/// Does some work; none where it panicked, of which nothing is printed.
///
/// What panics elsewhere, on this thread or another, is told as before.
pub(super) fn quietly<T>(work: impl FnOnce() -> T) -> Option<T> {
    static HOOK: Once = Once::new();
    HOOK.call_once(|| {
        let before = take_hook();
        set_hook(Box::new(move |about| {
            if !QUIET.get() {
                before(about);
            }
        }));
    });
    QUIET.set(true);
    let done = catch_unwind(AssertUnwindSafe(work));
    QUIET.set(false);
    done.ok()
}

#[cfg(test)]
mod tests {
    use super::quietly;

    #[test]
    fn what_panics_is_none_and_what_does_not_is_given() {
        assert_eq!(quietly(|| 7), Some(7));
        assert_eq!(quietly(|| [7][std::hint::black_box(3)]), None);
        assert_eq!(quietly(|| 8), Some(8));
    }
}
