//! How many cells are solved for at the same time.
//!
//! Corners take some 225 bytes a cell while they are solved, and many are solved side by side: on more
//! threads they would take more memory without a bound. Whoever comes when the cells are taken waits.

use std::sync::{Condvar, Mutex, PoisonError};

/// Cells at the same time, unless one volume alone has more: some 250 MB.
const AT_ONCE: usize = 1_100_000;

static TAKEN: Mutex<usize> = Mutex::new(0);
static GIVEN_BACK: Condvar = Condvar::new();

/// Runs a solver of so many cells when they are free. It may not wait for other threads' work: they
/// may wait for its cells.
pub(super) fn with_cells<T>(cells: usize, solve: impl FnOnce() -> T) -> T {
    let _taken = Taken::take(cells);
    solve()
}

/// Cells taken, given back when it goes.
struct Taken(usize);

impl Taken {
    fn take(cells: usize) -> Self {
        let taken = TAKEN.lock().unwrap_or_else(PoisonError::into_inner);
        let is_full = |taken: &mut usize| *taken > 0 && *taken + cells > AT_ONCE;
        let waited = GIVEN_BACK.wait_while(taken, is_full);
        *waited.unwrap_or_else(PoisonError::into_inner) += cells;
        Self(cells)
    }
}

impl Drop for Taken {
    fn drop(&mut self) {
        *TAKEN.lock().unwrap_or_else(PoisonError::into_inner) -= self.0;
        GIVEN_BACK.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::thread;
    use std::time::Duration;

    use super::*;

    #[test]
    fn no_more_cells_than_are_free_are_solved_for_at_once() {
        const EACH: usize = AT_ONCE / 2;
        let (running, most) = (AtomicUsize::new(0), AtomicUsize::new(0));
        let solve = || {
            let now = running.fetch_add(1, Ordering::SeqCst) + 1;
            most.fetch_max(now, Ordering::SeqCst);
            thread::sleep(Duration::from_millis(5));
            running.fetch_sub(1, Ordering::SeqCst);
        };
        thread::scope(|scope| {
            for _ in 0..8 {
                scope.spawn(|| with_cells(EACH, solve));
            }
            // More than there are: alone.
            scope.spawn(|| with_cells(2 * AT_ONCE, solve));
        });
        assert!(most.load(Ordering::SeqCst) <= 2);
        assert_eq!(running.load(Ordering::SeqCst), 0);
    }
}
