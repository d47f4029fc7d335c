//! One command over many records: a folder's drawings, or the lines of JSON Lines.
//!
//! Records are worked on by a pool of threads; results, messages and errors come in the order of
//! the records. A bad record is reported and left out, and the command ends with exit code 1.

use super::pool::{self, Sink, Window};
use super::progress::Progress;
use super::records::{Record, Records};
use crate::failure::Failure;
use crate::files::Draft;
use crate::hint::Asker;
use crate::message;

/// Records between the reader and the sink for each thread: enough to ride out uneven work.
const WINDOW_FOR_EACH: usize = 16;

/// Bytes of records from which on no more are read.
const WINDOW_BYTES: usize = 64 << 20;

/// What there is to work on.
pub(crate) struct Many {
    pub(crate) records: Records,
    /// How many, where that is known.
    pub(crate) count: Option<usize>,
    /// True where results go to stdout as they come.
    pub(crate) data_on_stdout: bool,
    /// The command that asks.
    pub(crate) asker: Asker,
}

/// How many records were good and bad.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Tally {
    pub(crate) good: u64,
    pub(crate) bad: u64,
}

impl Tally {
    /// A failure when any record was bad; each was reported already.
    pub(crate) fn result(self) -> Result<(), Failure> {
        let Self { good, bad } = self;
        match bad {
            0 => Ok(()),
            _ => {
                if good + bad > 1 {
                    message::line(format_args!("{bad} of {} failed", good + bad));
                }
                Err(Failure::Reported)
            }
        }
    }
}

/// Does the job for each record; what it makes goes to the sink in the order of the records.
pub(crate) fn each<T: Send>(
    many: Many,
    threads: usize,
    job: impl Fn(&Record) -> Result<T, Failure> + Sync,
    sink: &mut impl Sink<T>,
) -> Result<Tally, Failure> {
    let window = Window {
        records: threads * WINDOW_FOR_EACH,
        bytes: WINDOW_BYTES,
    };
    let threads = threads.min(many.count.unwrap_or(threads)).max(1);
    let records = many.records.map(|record| {
        let bytes = record.as_ref().map_or(0, Record::bytes);
        (record, bytes)
    });
    let job = |record: Result<Record, Failure>| {
        let work = |record: &Record| job(record).map_err(|failure| record.locate(failure));
        let (result, lines) = message::held(|| work(&record?));
        Made { result, lines }
    };
    let mut reporter = Reporter {
        sink,
        tally: Tally::default(),
        progress: Progress::new(many.count, many.data_on_stdout),
        asker: many.asker,
    };
    let done = pool::run(records, threads, window, job, &mut reporter);
    reporter.progress.finish();
    done.map(|()| reporter.tally)
}

/// What became of a record, and the lines to print about it.
struct Made<T> {
    result: Result<T, Failure>,
    lines: Vec<String>,
}

/// Prints what there is to report, counts, and passes on what is good.
struct Reporter<'a, S> {
    sink: &'a mut S,
    tally: Tally,
    progress: Progress,
    asker: Asker,
}

impl<T, S: Sink<T>> Sink<Made<T>> for Reporter<'_, S> {
    fn take(&mut self, made: Made<T>) -> Result<(), Failure> {
        if !made.lines.is_empty() || made.result.is_err() {
            self.progress.aside(|| {
                made.lines.into_iter().for_each(message::emit);
                if let Err(failure) = &made.result {
                    failure.report(self.asker);
                }
            });
        }
        match made.result {
            Ok(good) => {
                self.tally.good += 1;
                self.sink.take(good)?;
            }
            Err(_) => self.tally.bad += 1,
        }
        self.progress.step();
        Ok(())
    }

    fn pause(&mut self) -> Result<(), Failure> {
        self.sink.pause()
    }
}

/// Text goes out as it comes.
impl Sink<String> for Draft {
    fn take(&mut self, text: String) -> Result<(), Failure> {
        self.write(text.as_bytes())
    }

    fn pause(&mut self) -> Result<(), Failure> {
        self.flush()
    }
}
