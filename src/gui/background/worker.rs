//! One piece of work in the background, on a thread of its own: never two at a time.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::JoinHandle;
use std::time::Duration;

use eframe::egui;

use crate::base::language::{speak, spoken};
use crate::base::progress::Watch;

/// Seconds without a change after which work begins.
pub(in crate::gui) const REST_S: f64 = 0.3;
/// While something runs, the window is drawn again so often.
pub(in crate::gui) const DRAWN_EVERY: Duration = Duration::from_millis(100);

/// How a piece of work ended.
pub(in crate::gui) enum Ended<T> {
    /// With this.
    Done(T),
    /// It was no longer wanted; what it found is dropped.
    Unwanted,
    /// Its thread is gone without a word.
    Died,
}

/// Starts work, watches it, and hands its result over.
pub(in crate::gui) struct Worker<T> {
    running: Option<Running>,
    sender: Sender<(u64, T)>,
    answers: Receiver<(u64, T)>,
    started: u64,
}

struct Running {
    id: u64,
    is_wanted: bool,
    /// The largest share that was seen: what is still to do may grow while it is done.
    share: f32,
    watch: Arc<Watch>,
    thread: JoinHandle<()>,
}

impl<T> Default for Worker<T> {
    fn default() -> Self {
        let (sender, answers) = channel();
        Worker { running: None, sender, answers, started: 0 }
    }
}

impl<T: Send + 'static> Worker<T> {
    /// Starts work, in the voice of the window; it is drawn again when the work ends. To be called when nothing runs.
    pub fn start(
        &mut self,
        ctx: &egui::Context,
        name: &str,
        work: impl FnOnce(&Watch) -> T + Send + 'static,
    ) -> std::io::Result<()> {
        self.started += 1;
        let (id, sender, ctx) = (self.started, self.sender.clone(), ctx.clone());
        let watch = Arc::new(Watch::default());
        let watched = Arc::clone(&watch);
        let voice = spoken();
        let thread = std::thread::Builder::new().name(name.to_owned()).spawn(move || {
            let _voice = speak(voice);
            let found = work(&watched);
            // The window may be gone by now.
            let _ = sender.send((id, found));
            ctx.request_repaint();
        })?;
        self.running = Some(Running { id, is_wanted: true, share: 0.0, watch, thread });
        Ok(())
    }

    /// What runs is no longer wanted. It ends soon; until then nothing else starts.
    pub fn cancel(&mut self) {
        if let Some(running) = &mut self.running {
            running.is_wanted = false;
            running.watch.cancel();
        }
    }

    /// Something runs, wanted or not.
    pub fn is_busy(&self) -> bool {
        self.running.is_some()
    }

    /// How far it has come, 0 to 1; never goes back.
    pub fn share(&self) -> f32 {
        self.running.as_ref().map_or(0.0, |r| r.share)
    }

    /// How many pieces of work were started so far.
    pub fn started(&self) -> u64 {
        self.started
    }

    /// What ended since the last call.
    pub fn ended(&mut self) -> Option<Ended<T>> {
        let running = self.running.as_mut()?;
        running.share = running.share.max(running.watch.share());
        // A thread that is finished has sent what it has to send.
        let is_over = running.thread.is_finished();
        let id = running.id;
        let found = self.answers.try_iter().find(|(from, _)| *from == id);
        if found.is_none() && !is_over {
            return None;
        }
        self.over(found)
    }

    /// Waits for what runs.
    pub fn wait(&mut self) -> Option<Ended<T>> {
        let id = self.running.as_ref()?.id;
        while !self.running.as_ref()?.thread.is_finished() {
            match self.answers.recv_timeout(Duration::from_millis(1)) {
                Ok(found) if found.0 == id => return self.over(Some(found)),
                _ => {}
            }
        }
        let found = self.answers.try_iter().find(|(from, _)| *from == id);
        self.over(found)
    }

    fn over(&mut self, found: Option<(u64, T)>) -> Option<Ended<T>> {
        let is_wanted = self.running.take()?.is_wanted;
        Some(match found {
            Some((_, found)) if is_wanted => Ended::Done(found),
            None if is_wanted => Ended::Died,
            _ => Ended::Unwanted,
        })
    }
}

impl<T> Drop for Worker<T> {
    fn drop(&mut self) {
        if let Some(running) = &self.running {
            running.watch.cancel();
        }
    }
}
