//! The end of the command by a signal, once what is in the making is removed.

use std::ffi::c_int;
use std::fs;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc;
use std::sync::{Arc, Once};
use std::thread;

use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
use signal_hook::flag::register_conditional_shutdown;
use signal_hook::iterator::Signals;
use signal_hook::low_level::emulate_default_handler;

use super::list::list;

/// Watches for signals from the first temporary on.
pub(super) fn watch_once() {
    static WATCHED: Once = Once::new();
    WATCHED.call_once(watch);
}

/// Waits for a signal on a thread of its own.
fn watch() {
    let signals = wanted(&fs::read_to_string("/proc/self/status").unwrap_or_default());
    let (give, take) = mpsc::channel::<Signals>();
    let stopping = Arc::new(AtomicBool::new(false));
    let again = Arc::clone(&stopping);
    let thread = thread::Builder::new().spawn(move || {
        let signal = take.recv().ok().and_then(|mut s| s.forever().next());
        if let Some(signal) = signal {
            stopping.store(true, Ordering::SeqCst);
            end(signal);
        }
    });
    // Without a thread to clean up nothing is caught: a signal ends the command as ever.
    if thread.is_err() {
        return;
    }
    if let Ok(caught) = Signals::new(&signals) {
        for signal in signals {
            let _ = register_conditional_shutdown(signal, 128 + signal, Arc::clone(&again));
        }
        let _ = give.send(caught);
    }
}

/// Those that are not ignored already, as `nohup` and shells have it for work behind the scenes.
///
/// Where the system doesn't say, a terminal that closes is left alone, for the sake of `nohup`.
fn wanted(status: &str) -> Vec<c_int> {
    let mask = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    let mask = mask.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
    let ignored = |signal: c_int| match mask {
        Some(mask) => mask >> (signal - 1) & 1 == 1,
        None => signal == SIGHUP,
    };
    let all = [SIGHUP, SIGINT, SIGTERM].into_iter();
    all.filter(|signal| !ignored(*signal)).collect()
}

/// Removes what is in the making, and the process with it.
fn end(signal: c_int) {
    let list = list();
    for path in list.iter() {
        let is_folder = fs::symlink_metadata(path).is_ok_and(|found| found.is_dir());
        // What can't be removed stays; there is nobody left to read about it.
        let _ = match is_folder {
            true => fs::remove_dir_all(path),
            false => fs::remove_file(path),
        };
    }
    let _ = emulate_default_handler(signal);
    // Only a signal without a default comes here.
    std::process::exit(128 + signal);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ignored_signals_stay_ignored() {
        let status = |mask: &str| format!("Name:\tq\nSigIgn:\t{mask}\nSigCgt:\t0\n");
        assert_eq!(
            wanted(&status("0000000000001000")),
            [SIGHUP, SIGINT, SIGTERM]
        );
        assert_eq!(wanted(&status("0000000000000001")), [SIGINT, SIGTERM]);
        assert_eq!(wanted(&status("0000000000000006")), [SIGHUP, SIGTERM]);
        assert_eq!(wanted(""), [SIGINT, SIGTERM]);
    }
}
