//! How far long work has come, and whether it is still wanted.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// How far a run has come, and whether it is still wanted; shared with whoever waits for it.
#[derive(Debug, Default)]
pub struct Watch {
    done: AtomicUsize,
    total: AtomicUsize,
    cancelled: AtomicBool,
}

impl Watch {
    /// Share that is done, 0 to 1.
    pub fn share(&self) -> f32 {
        let (done, total) = (self.done.load(Ordering::Relaxed), self.total.load(Ordering::Relaxed));
        if total == 0 { 0.0 } else { (done as f32 / total as f32).min(1.0) }
    }

    /// Asks the run to stop; it ends after its present block.
    pub fn cancel(&self) {
        self.cancelled.store(true, Ordering::Relaxed);
    }

    /// It was asked to stop.
    pub fn is_cancelled(&self) -> bool {
        self.cancelled.load(Ordering::Relaxed)
    }

    /// Says how far work has come that counts no draws, 0 to 1.
    pub fn tell(&self, share: f64) {
        const PARTS: f64 = 1e4;
        self.total.store(PARTS as usize, Ordering::Relaxed);
        self.done.store((share.clamp(0.0, 1.0) * PARTS) as usize, Ordering::Relaxed);
    }

    /// Announces this number of further draws; a single run does so itself.
    pub(crate) fn expect(&self, more: usize) {
        self.total.fetch_add(more, Ordering::Relaxed);
    }

    /// Reports this number of draws as done.
    pub(crate) fn done(&self, count: usize) {
        self.done.fetch_add(count, Ordering::Relaxed);
    }

    /// Something is to come, or was.
    pub(crate) fn has_begun(&self) -> bool {
        self.total.load(Ordering::Relaxed) > 0
    }
}
