//! Making the packet again whenever its file, or a climate's file named in it, changes.

use std::fs;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, SystemTime};

use super::super::output::err;
use crate::error::Error;

/// Between two looks at the files.
const LOOK: Duration = Duration::from_millis(200);

/// Makes the packet now and at every change, until the program is stopped. While the file is
/// broken the mistakes are told and the last good packet stays.
pub(super) fn keep_up(
    file: &Path,
    mut make: impl FnMut() -> Result<u8, Error>,
) -> Result<u8, Error> {
    loop {
        let seen = state(file);
        if let Err(error) = make() {
            err(&format!("{error}\nThe last good packet is kept.\n"))?;
        }
        err("Watching for changes; stop with Ctrl-C.\n")?;
        while state(file) == seen {
            sleep(LOOK);
        }
        // Editors write in several steps: wait until it is quiet.
        let mut before = state(file);
        loop {
            sleep(LOOK);
            let now = state(file);
            if now == before {
                break;
            }
            before = now;
        }
    }
}

/// Size and time of every file that counts; `None` where it can't be read.
type State = Vec<(PathBuf, Option<(u64, SystemTime)>)>;

fn state(file: &Path) -> State {
    let mut paths = vec![file.to_owned()];
    let folder = file.parent().unwrap_or(Path::new(""));
    let is_regular = fs::metadata(file).is_ok_and(|there| there.is_file());
    let text = match is_regular {
        true => fs::read_to_string(file).unwrap_or_default(),
        false => String::new(),
    };
    let apart = |c: char| c.is_whitespace() || "\"'[]{},".contains(c);
    let named = text.split(apart).filter(|word| word.ends_with(".csv"));
    paths.extend(named.map(|word| folder.join(word)));
    let look = |path: PathBuf| {
        let found = fs::metadata(&path).ok();
        let facts = found.and_then(|found| Some((found.len(), found.modified().ok()?)));
        (path, facts)
    };
    paths.into_iter().map(look).collect()
}
