//! Writing a table row by row, so that it can be taken up wherever it was left.
//!
//! The file is never more than a beginning of what a run that went through writes: rows are
//! computed in parallel, written in order and handed to the system chunk by chunk. What a killed
//! run leaves is therefore whole lines and at most one half, which is cut off.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{BufRead, BufReader, Read, Seek, SeekFrom, Write};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};

use indicatif::{ProgressBar, ProgressStyle};
use rayon::prelude::*;

use super::super::output::all_numbers;
use crate::check::sweep::{Rows, Workspace};
use crate::error::Error;
use crate::report::sweep::Table;

/// Rows computed before they are written: a moment's work, and little memory.
const CHUNK: u64 = 1024;
/// Rows one thread computes at a time.
const PIECE: u64 = 16;

/// No row of ours is longer, bytes.
const LONGEST_ROW: u64 = 1 << 16;

/// What was written.
pub(super) struct Written {
    /// Rows that were there before.
    pub(super) before: u64,
    /// Rows there now.
    pub(super) rows: u64,
    pub(super) ended: Ended,
}

/// How it ended.
pub(super) enum Ended {
    Whole,
    Interrupted,
}

/// Writes what is missing of a table. `again` writes it anew, whatever stands there.
pub(super) fn write(
    path: &Path,
    table: &Table<'_>,
    rows: &Rows<'_>,
    again: bool,
    stop: &AtomicBool,
) -> Result<Written, Error> {
    let name = path.display().to_string();
    let failed = |error: std::io::Error| {
        Error::output(&name, format!("this table can't be written: {error}"))
    };
    if path.is_dir() {
        return Err(Error::output(&name, "this is a folder, not a table"));
    }
    if path.metadata().is_ok_and(|there| !there.is_file()) {
        return Err(Error::output(&name, "this is no regular file, so no table"));
    }
    let open = OpenOptions::new()
        .read(true)
        .write(true)
        .create(true)
        .truncate(false)
        .open(path);
    let mut file = open.map_err(failed)?;
    // Where files can't be locked nothing is known of others.
    if matches!(file.try_lock(), Err(TryLockError::WouldBlock)) {
        return Err(Error::output(
            &name,
            "another sweep is writing this table just now",
        ));
    }
    let head = table.head();
    let mut before = Begun { rows: 0, bytes: 0 };
    if !again {
        match begun(&mut file, table, &head, rows.count()).map_err(failed)? {
            Some(found) => before = found,
            None => return Err(not_ours(&name)),
        }
    }
    file.set_len(before.bytes).map_err(failed)?;
    file.seek(SeekFrom::Start(before.bytes)).map_err(failed)?;
    if before.bytes == 0 {
        file.write_all(head.as_bytes()).map_err(failed)?;
    }
    let bar = bar(rows.count(), before.rows);
    let mut next = before.rows;
    while next < rows.count() && !stop.load(Ordering::Relaxed) {
        let end = (next + CHUNK).min(rows.count());
        for (told, count) in chunk(table, rows, next..end, stop) {
            // What was written before stays, whole.
            all_numbers(&name, &told)?;
            file.write_all(told.as_bytes()).map_err(failed)?;
            next += count;
        }
        bar.set_position(next);
    }
    bar.finish_and_clear();
    let whole = next == rows.count();
    if whole {
        file.write_all(table.tail().as_bytes()).map_err(failed)?;
    }
    file.sync_all().map_err(failed)?;
    Ok(Written {
        before: before.rows,
        rows: next,
        ended: if whole {
            Ended::Whole
        } else {
            Ended::Interrupted
        },
    })
}

fn not_ours(name: &str) -> Error {
    let help = "name another file, or write over this one with --again".to_owned();
    Error::input(
        name,
        "this file is there already, and it isn't a table of this sweep",
        Some(help),
    )
}

/// Lines of a range of rows, in order, and how many they are. Asked to stop, every thread ends with the
/// row in hand, and what lies behind the first gap isn't told.
fn chunk(
    table: &Table<'_>,
    rows: &Rows<'_>,
    range: std::ops::Range<u64>,
    stop: &AtomicBool,
) -> Vec<(String, u64)> {
    let pieces = (range.end - range.start).div_ceil(PIECE);
    let piece = |solver: &mut Workspace, n: u64| {
        let from = range.start + n * PIECE;
        let to = (from + PIECE).min(range.end);
        let mut told = String::with_capacity(PIECE as usize * 400);
        let mut count = 0;
        for number in (from..to).take_while(|_| !stop.load(Ordering::Relaxed)) {
            table.row(&mut told, &rows.row(solver, number));
            count += 1;
        }
        (told, count, count == to - from)
    };
    let made: Vec<(String, u64, bool)> = (0..pieces)
        .into_par_iter()
        .map_init(Workspace::default, piece)
        .collect();
    let whole = made.iter().take_while(|(_, _, whole)| *whole).count();
    let kept = made.into_iter().take(whole + 1);
    kept.map(|(told, count, _)| (told, count)).collect()
}

/// What there is of a table.
struct Begun {
    rows: u64,
    bytes: u64,
}

/// Counts the whole rows of a table of this sweep; `None` where it is anything else.
fn begun(
    file: &mut File,
    table: &Table<'_>,
    head: &str,
    count: u64,
) -> std::io::Result<Option<Begun>> {
    let mut reader = BufReader::with_capacity(1 << 16, file);
    let mut start = Vec::new();
    reader
        .by_ref()
        .take(head.len() as u64)
        .read_to_end(&mut start)?;
    let nothing = Begun { rows: 0, bytes: 0 };
    if start != head.as_bytes() {
        // A run killed before its first row leaves half a head.
        let is_half = head.as_bytes().starts_with(&start);
        return Ok(is_half.then_some(nothing));
    }
    let mut found = Begun {
        rows: 0,
        bytes: head.len() as u64,
    };
    let mut line = Vec::new();
    while found.rows < count {
        line.clear();
        reader
            .by_ref()
            .take(LONGEST_ROW)
            .read_until(b'\n', &mut line)?;
        if line.last() != Some(&b'\n') {
            return Ok(Some(found));
        }
        if !table.is_row(&line, found.rows) {
            return Ok(None);
        }
        found.rows += 1;
        found.bytes += line.len() as u64;
    }
    // Behind the last row nothing but the tail, or a half of it.
    let mut rest = Vec::new();
    reader.take(64).read_to_end(&mut rest)?;
    Ok(table.tail().as_bytes().starts_with(&rest).then_some(found))
}

/// Drawn on a terminal only.
fn bar(count: u64, done: u64) -> ProgressBar {
    let words = "combinations {bar:40} {pos} of {len}, {eta} left";
    let plain = ProgressStyle::default_bar();
    let style = ProgressStyle::with_template(words).unwrap_or(plain);
    let bar = ProgressBar::new(count)
        .with_style(style)
        .with_position(done);
    bar.reset_eta();
    bar
}
