//! Many records through one job on several threads, the results in the order of the records.
//!
//! Problem: records come one after the other from a reader that may be slow or endless, and take
//! very uneven work. All cores are to be busy, results are to leave in the order of the records,
//! and memory is not to grow with their number.
//!
//! Method: one thread reads, a pool works, the calling thread takes. A gate stands before the
//! reader: a record enters it before it is read and leaves it once its result is taken, so records
//! at work and results that wait for an earlier one count alike.
//!
//! Guarantee: never more records between reader and sink than the window has, and no new one is
//! read while those there weigh the window's bytes or more. The sink sees each result once, in
//! order. A result is taken as soon as it and all before it are there, whether or not the reader
//! waits for more.
//!
//! Failure: what the sink refuses ends the run, and nothing more is read. A job or a reader that
//! panics ends it too, with its panic.

use std::collections::BTreeMap;
use std::sync::mpsc::{self, Receiver, Sender, TryRecvError};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;

use crate::failure::Failure;

/// What may be between the reader and the sink.
#[derive(Debug, Clone, Copy)]
pub(super) struct Window {
    pub(super) records: usize,
    /// From here on no more is read; one record may weigh more than that by itself.
    pub(super) bytes: usize,
}

/// What takes results in order.
pub(crate) trait Sink<T> {
    /// Takes the next result.
    fn take(&mut self, result: T) -> Result<(), Failure>;

    /// Called when no further result is ready just now.
    fn pause(&mut self) -> Result<(), Failure> {
        Ok(())
    }
}

/// A record with its place in the order and its weight.
struct Placed<T> {
    at: u64,
    bytes: usize,
    what: T,
}

/// Runs the job on each record, given with its weight in bytes; the sink takes the results in
/// order.
pub(super) fn run<R: Send, T: Send>(
    records: impl Iterator<Item = (R, usize)> + Send,
    threads: usize,
    window: Window,
    job: impl Fn(R) -> T + Sync,
    sink: &mut impl Sink<T>,
) -> Result<(), Failure> {
    let gate = Gate::new(window);
    let (give, todo) = mpsc::channel();
    let (finish, done) = mpsc::channel();
    let todo = Mutex::new(todo);
    thread::scope(|scope| {
        let (gate, todo, job) = (&gate, &todo, &job);
        scope.spawn(move || {
            let _shut = ShutInPanic(gate);
            read(records, gate, &give);
        });
        for _ in 0..threads {
            let finish = finish.clone();
            scope.spawn(move || {
                let _shut = ShutInPanic(gate);
                while let Some(Placed { at, bytes, what }) = next(todo) {
                    let what = job(what);
                    if finish.send(Placed { at, bytes, what }).is_err() {
                        break;
                    }
                }
            });
        }
        // The workers' ends alone keep the results open.
        drop(finish);
        let taken = take(done, gate, sink);
        gate.shut();
        taken
    })
}

fn read<R>(mut records: impl Iterator<Item = (R, usize)>, gate: &Gate, give: &Sender<Placed<R>>) {
    for at in 0.. {
        if !gate.enter() {
            break;
        }
        let Some((what, bytes)) = records.next() else {
            break;
        };
        gate.weigh(bytes);
        if give.send(Placed { at, bytes, what }).is_err() {
            break;
        }
    }
}

fn next<R>(todo: &Mutex<Receiver<R>>) -> Option<R> {
    lock(todo).recv().ok()
}

fn take<T>(done: Receiver<Placed<T>>, gate: &Gate, sink: &mut impl Sink<T>) -> Result<(), Failure> {
    let mut early = BTreeMap::new();
    let mut next = 0;
    loop {
        let result = match done.try_recv() {
            Err(TryRecvError::Empty) => {
                sink.pause()?;
                done.recv().ok()
            }
            ready => ready.ok(),
        };
        let Some(result) = result else {
            return Ok(());
        };
        early.insert(result.at, result);
        while let Some(Placed { bytes, what, .. }) = early.remove(&next) {
            sink.take(what)?;
            gate.leave(bytes);
            next += 1;
        }
    }
}

/// Counts what is between the reader and the sink.
struct Gate {
    window: Window,
    inside: Mutex<Inside>,
    changed: Condvar,
}

#[derive(Default)]
struct Inside {
    records: usize,
    bytes: usize,
    shut: bool,
}

impl Gate {
    fn new(window: Window) -> Self {
        Self {
            window,
            inside: Mutex::default(),
            changed: Condvar::new(),
        }
    }

    /// Waits for room for one more record; false when no more is wanted.
    fn enter(&self) -> bool {
        let Window { records, bytes } = self.window;
        let full = |inside: &mut Inside| {
            !inside.shut && (inside.records >= records || inside.bytes >= bytes)
        };
        let inside = self.changed.wait_while(lock(&self.inside), full);
        let mut inside = inside.unwrap_or_else(PoisonError::into_inner);
        inside.records += 1;
        !inside.shut
    }

    /// Adds the weight of the record that entered last.
    fn weigh(&self, bytes: usize) {
        lock(&self.inside).bytes += bytes;
    }

    fn leave(&self, bytes: usize) {
        let mut inside = lock(&self.inside);
        inside.records -= 1;
        inside.bytes -= bytes;
        self.changed.notify_one();
    }

    fn shut(&self) {
        lock(&self.inside).shut = true;
        self.changed.notify_all();
    }
}

/// Shuts the gate when its thread panics: the record that is lost would be waited for for ever.
struct ShutInPanic<'a>(&'a Gate);

impl Drop for ShutInPanic<'_> {
    fn drop(&mut self) {
        if thread::panicking() {
            self.0.shut();
        }
    }
}

/// Nothing that is locked here is left half changed by a panic.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering::SeqCst};
    use std::time::Duration;

    const WINDOW: Window = Window {
        records: 7,
        bytes: 1000,
    };

    /// Keeps what it takes, counts what is inside, and refuses from a number on.
    struct Kept<'a> {
        taken: Vec<usize>,
        inside: &'a AtomicUsize,
        refuse_from: usize,
    }

    impl Sink<usize> for Kept<'_> {
        fn take(&mut self, result: usize) -> Result<(), Failure> {
            if self.taken.len() == self.refuse_from {
                return Err(Failure::PipeClosed);
            }
            self.taken.push(result);
            self.inside.fetch_sub(1, SeqCst);
            Ok(())
        }
    }

    /// Runs this many records of this weight; what was taken, the most inside, how many were read.
    fn run_through(
        count: usize,
        threads: usize,
        weight: usize,
        refuse_from: usize,
        job: impl Fn(usize) -> usize + Sync,
    ) -> (Vec<usize>, usize, usize) {
        let [inside, most, read] = [const { AtomicUsize::new(0) }; 3];
        let records = (0..count).map(|at| {
            read.fetch_add(1, SeqCst);
            most.fetch_max(inside.fetch_add(1, SeqCst) + 1, SeqCst);
            (at, weight)
        });
        let mut sink = Kept {
            taken: Vec::new(),
            inside: &inside,
            refuse_from,
        };
        let ended = run(records, threads, WINDOW, job, &mut sink);
        assert_eq!(ended.is_err(), refuse_from < count);
        (sink.taken, most.load(SeqCst), read.load(SeqCst))
    }

    #[test]
    fn order_stays_and_the_window_holds_where_the_first_takes_longest() {
        for threads in [1, 2, 16] {
            let (taken, most, _) = run_through(500, threads, 1, usize::MAX, |at| {
                if at % 50 == 0 {
                    thread::sleep(Duration::from_millis(5));
                }
                at * 3
            });
            assert!(taken.iter().copied().eq((0..500).map(|at| at * 3)));
            assert!(most <= WINDOW.records, "{most} inside");
        }
    }

    #[test]
    fn heavy_records_come_few_at_a_time() {
        // The third comes while two weigh 800, below 1000; the fourth waits.
        let (taken, most, _) = run_through(100, 4, 400, usize::MAX, |at| at);
        assert_eq!(taken.len(), 100);
        assert!(most <= 3, "{most} inside");
        // One that weighs more than the window goes through alone.
        let (taken, most, _) = run_through(20, 4, 5000, usize::MAX, |at| at);
        assert_eq!((taken.len(), most), (20, 1));
    }

    #[test]
    fn a_sink_that_has_enough_stops_the_reader() {
        let (taken, _, read) = run_through(1_000_000, 3, 1, 10, |at| at);
        assert_eq!(taken.len(), 10);
        assert!(read <= 10 + WINDOW.records, "{read} read");
    }

    #[test]
    fn results_leave_while_the_reader_waits() {
        let (ask, asked) = mpsc::channel();
        struct Asks(Sender<usize>);
        impl Sink<usize> for Asks {
            fn take(&mut self, result: usize) -> Result<(), Failure> {
                // The reader may be gone already.
                let _ = self.0.send(result);
                Ok(())
            }
        }
        // Each record is made only once the result of the one before it was taken.
        let records = (0..20).map(move |at: usize| {
            if at > 0 {
                let before = asked.recv_timeout(Duration::from_secs(60));
                assert_eq!(before, Ok(at - 1), "the result of the record before");
            }
            (at, 1)
        });
        run(records, 4, WINDOW, |at| at, &mut Asks(ask)).expect("all taken");
    }

    #[test]
    fn a_panic_ends_the_run() {
        let ended = std::panic::catch_unwind(|| {
            run_through(1000, 2, 1, usize::MAX, |at| {
                assert_ne!(at, 20, "planted");
                at
            })
        });
        assert!(ended.is_err());
    }

    #[test]
    fn pools_of_any_size_take_all_in_order() {
        for count in [0, 1, 2, 6, 7, 8, 100] {
            for threads in [1, 2, 3, 8] {
                for weight in [0, 1, 300, 1000] {
                    let (taken, most, read) =
                        run_through(count, threads, weight, usize::MAX, |at| at);
                    assert!(taken.into_iter().eq(0..count));
                    assert!(most <= WINDOW.records);
                    assert_eq!(read, count);
                }
            }
        }
    }
}
