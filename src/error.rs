//! The one public error: what can't be used in a file, where, and what would be right.

use std::fmt;

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

/// A place in a text: bytes for slicing, line and column (both from 1) for people.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

/// Most characters of a message that are shown.
const MOST_SHOWN: usize = 300;

/// One thing that is wrong with an input.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong, naming the offending text.
    pub message: String,
    /// Where; `None` when the whole file is meant.
    pub span: Option<Span>,
    /// What was expected at that place.
    pub label: String,
    /// What would help.
    pub help: Option<String>,
    /// The line itself, where the text of the file isn't kept because it may be huge; the span's
    /// bytes then count within that line.
    pub excerpt: Option<String>,
}

impl Problem {
    /// A problem at a place.
    #[must_use]
    pub fn at(span: Span, message: impl Into<String>) -> Self {
        Self {
            message: message.into(),
            span: Some(span),
            label: String::new(),
            help: None,
            excerpt: None,
        }
    }

    /// A problem with the file as a whole.
    #[must_use]
    pub fn whole(message: impl Into<String>) -> Self {
        Self {
            message: message.into(),
            span: None,
            label: String::new(),
            help: None,
            excerpt: None,
        }
    }

    /// Adds what was expected, shown under the caret.
    #[must_use]
    pub fn expected(self, label: impl Into<String>) -> Self {
        Self {
            label: label.into(),
            ..self
        }
    }

    /// Adds what would help.
    #[must_use]
    pub fn help(self, help: impl Into<String>) -> Self {
        Self {
            help: Some(help.into()),
            ..self
        }
    }

    /// Adds the line it stands in, for a file whose text isn't kept.
    #[must_use]
    pub fn excerpt(self, line: impl Into<String>) -> Self {
        Self {
            excerpt: Some(line.into()),
            ..self
        }
    }

    /// The same with its message cut to what can be read: a stray quote can make a whole file one
    /// text.
    fn shortened(&self) -> Self {
        let mut short = self.clone();
        if let Some((end, _)) = short.message.char_indices().nth(MOST_SHOWN) {
            short.message.truncate(end);
            short.message += " …";
        }
        short
    }

    /// Adds what would help where there is something.
    #[must_use]
    pub fn maybe_help(self, help: Option<String>) -> Self {
        Self {
            help: help.or(self.help),
            ..self
        }
    }
}

/// What kind of failure an [`Error`] is; it decides the exit code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Failure {
    /// The input can't be used: exit code 2.
    Input,
    /// The output can't be written: exit code 3.
    Output,
    /// A result is no number: exit code 4.
    NoNumber,
}

/// Everything that is wrong with one input or output, in order of place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Error {
    /// Input or output.
    pub failure: Failure,
    /// The file, as the user named it.
    pub file: String,
    /// The file's text where it was read, for showing the lines.
    pub text: String,
    /// The problems, by line.
    pub problems: Vec<Problem>,
}

impl Error {
    /// The problems found in a text.
    #[must_use]
    pub fn in_text(file: &str, text: &str, mut problems: Vec<Problem>) -> Self {
        problems.sort_by_key(|problem| problem.span.map_or(0, |span| span.start));
        // What stands behind an alias is read wherever the alias stands: told once.
        problems.dedup();
        Self {
            failure: Failure::Input,
            file: file.into(),
            text: text.into(),
            problems,
        }
    }

    /// The problems found in a file whose text isn't kept, in the order given; each brings its
    /// line as [`Problem::excerpt`].
    #[must_use]
    pub fn in_lines(file: &str, problems: Vec<Problem>) -> Self {
        Self {
            failure: Failure::Input,
            file: file.into(),
            text: String::new(),
            problems,
        }
    }

    /// A file that can't be used at all.
    #[must_use]
    pub fn input(file: &str, message: impl Into<String>, help: Option<String>) -> Self {
        let problem = Problem::whole(message).maybe_help(help);
        Self {
            failure: Failure::Input,
            file: file.into(),
            text: String::new(),
            problems: vec![problem],
        }
    }

    /// A file or folder that can't be written.
    #[must_use]
    pub fn output(file: &str, message: impl Into<String>) -> Self {
        let problem = Problem::whole(message);
        Self {
            failure: Failure::Output,
            file: file.into(),
            text: String::new(),
            problems: vec![problem],
        }
    }

    /// A result that is no number, which nothing may show.
    #[must_use]
    pub fn no_number(file: &str, place: &str) -> Self {
        let message = format!("a result here is no number, so nothing is told or written: {place}");
        let help = "a value in the file lies where the method has no answer, and the program should \
                    have said so sooner: change the part that is named, and tell us";
        Self {
            failure: Failure::NoNumber,
            file: file.into(),
            text: String::new(),
            problems: vec![Problem::whole(message).help(help)],
        }
    }

    /// The exit code of the program: 2 for input, 3 for output, 4 for a result that is no number.
    #[must_use]
    pub fn exit_code(&self) -> u8 {
        match self.failure {
            Failure::Input => 2,
            Failure::Output => 3,
            Failure::NoNumber => 4,
        }
    }

    fn render(&self, problem: &Problem, file: &str) -> String {
        let problem = &problem.shortened();
        let Some(span) = problem.span else {
            let help = problem
                .help
                .as_ref()
                .map(|help| format!("\n  = help: {help}"));
            return format!(
                "error: {}\n --> {}{}",
                problem.message,
                file,
                help.unwrap_or_default()
            );
        };
        let (text, first_line) = match &problem.excerpt {
            Some(line) => (line.as_str(), span.line),
            None => (self.text.as_str(), 1),
        };
        let range = inside_text(text, span);
        let snippet = Snippet::source(text)
            .line_start(first_line)
            .path(file)
            .annotation(
                AnnotationKind::Primary
                    .span(range)
                    .label(problem.label.as_str()),
            );
        let mut group = Level::ERROR
            .primary_title(problem.message.as_str())
            .element(snippet);
        if let Some(help) = &problem.help {
            group = group.element(Level::HELP.message(help.as_str()));
        }
        Renderer::plain().render(&[group])
    }
}

/// The span, kept within the text and never empty where there is a character to point at.
fn inside_text(text: &str, span: Span) -> std::ops::Range<usize> {
    let floor = |mut at: usize| {
        at = at.min(text.len());
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = floor(span.start);
    let first_line_end = text[start..].find('\n').map_or(text.len(), |n| start + n);
    start..floor(span.end).clamp(start, first_line_end.max(start))
}

/// Problems that are told at most.
const MOST_TOLD: usize = 50;

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let file = seen(&self.file.replace('\n', "\\n"));
        for (index, problem) in self.problems.iter().take(MOST_TOLD).enumerate() {
            if index > 0 {
                f.write_str("\n\n")?;
            }
            f.write_str(&seen(&self.render(problem, &file)))?;
        }
        match self.problems.len() {
            0 | 1 => Ok(()),
            count @ ..=MOST_TOLD => write!(f, "\n\n{count} problems in {file}"),
            count => write!(
                f,
                "\n\n{count} problems in {file}, the first {MOST_TOLD} of them above"
            ),
        }
    }
}

impl std::error::Error for Error {}

/// Words longer than this aren't compared: the work grows with the square.
const LONGEST_MEANT: usize = 100;

/// Whether a character isn't seen, or moves what stands around it: control characters, line and
/// paragraph separators, overrides of the writing direction, what a program keeps for its own use. In a
/// name it could forge a line.
#[must_use]
pub fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(
            c,
            '\u{200E}' | '\u{200F}' | '\u{061C}' | '\u{2028}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{FEFF}' | '\u{FDD0}'..='\u{FDEF}'
        )
}

/// A text with every hidden character but blanks and line breaks in a form that is seen: `\u{1b}`.
fn seen(text: &str) -> String {
    let mut told = String::with_capacity(text.len());
    for c in text.chars() {
        match is_hidden(c) && !matches!(c, '\n' | '\t') {
            true => told.extend(c.escape_unicode()),
            false => told.push(c),
        }
    }
    told
}

/// The nearest of the known words, if one is near enough to be meant.
///
/// ```
/// # use dewmargin::error::did_you_mean;
/// let known = ["plywood", "OSB"];
/// assert_eq!(did_you_mean("plywod", known), Some("plywood"));
/// assert_eq!(did_you_mean("granite", known), None);
/// ```
#[must_use]
pub fn did_you_mean<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if word.chars().nth(LONGEST_MEANT).is_some() {
        return None;
    }
    let known = known
        .into_iter()
        .filter(|known| known.chars().nth(LONGEST_MEANT).is_none());
    let plain = |text: &str| text.to_lowercase().replace([' ', '-', '_'], "");
    let word = plain(word);
    let distance = |candidate: &str| strsim::damerau_levenshtein(&word, &plain(candidate));
    known
        .map(|candidate| (distance(candidate), candidate))
        .filter(|(distance, candidate)| *distance <= 1 + candidate.chars().count() / 4)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}
