//! The cells of one line of a CSV file: where each stands, and quotes that do not close.

/// A line split at its commas.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Split {
    /// First byte and the byte behind the last of every cell, its quotes included.
    pub(super) cells: Vec<(usize, usize)>,
    /// A quote that makes the line unreadable, and where it stands.
    pub(super) fault: Option<(usize, QuoteFault)>,
}

/// What is wrong with a quoted cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum QuoteFault {
    /// It is not closed on its line.
    Unclosed,
    /// Text stands behind its closing quote.
    Behind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    Start,
    Bare,
    Quoted,
    Closed,
}

/// Splits a line as RFC 4180 does: a quote counts only at the start of a cell.
pub(super) fn split(line: &str) -> Split {
    let (mut start, mut opened, mut behind) = (0, 0, None);
    let mut state = State::Start;
    let mut cells = Vec::new();
    for (at, byte) in line.bytes().enumerate() {
        state = match (state, byte) {
            (State::Start | State::Bare | State::Closed, b',') => {
                cells.push((start, at));
                start = at + 1;
                State::Start
            }
            (State::Start, b'"') => {
                opened = at;
                State::Quoted
            }
            (State::Start | State::Bare, _) => State::Bare,
            (State::Quoted, b'"') => State::Closed,
            // two quotes inside a quoted cell are one quote of its text
            (State::Quoted, _) | (State::Closed, b'"') => State::Quoted,
            (State::Closed, b' ' | b'\t' | b'\r') => State::Closed,
            (State::Closed, _) => {
                behind.get_or_insert(opened);
                State::Bare
            }
        };
    }
    cells.push((start, line.len()));
    let unclosed = (state == State::Quoted).then_some((opened, QuoteFault::Unclosed));
    Split { cells, fault: behind.map(|at| (at, QuoteFault::Behind)).or(unclosed) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(line: &str) -> Vec<&str> {
        split(line).cells.iter().map(|&(start, end)| &line[start..end]).collect()
    }

    #[test]
    fn quotes_count_only_at_the_start_of_a_cell() {
        assert_eq!(cells(r#"A1,4'-6 1/4",2-1/2",x"#), ["A1", r#"4'-6 1/4""#, r#"2-1/2""#, "x"]);
        assert_eq!(cells(r#""a, b","4'-6 1/4""",c"#), [r#""a, b""#, r#""4'-6 1/4""""#, "c"]);
        assert_eq!(cells(""), [""]);
        assert_eq!(cells(",,"), ["", "", ""]);
    }

    #[test]
    fn a_quote_that_does_not_close_and_text_behind_one_are_told_at_the_opening_quote() {
        assert_eq!(split(r#"A1,"bent"#).fault, Some((3, QuoteFault::Unclosed)));
        assert_eq!(split(r#"A1,"4'-6 1/4"",x"#).fault, Some((3, QuoteFault::Unclosed)));
        assert_eq!(split(r#"A1,"bent" top,x"#).fault, Some((3, QuoteFault::Behind)));
        assert_eq!(split(r#"A1,"bent" ,x"#).fault, None);
        assert_eq!(split(r#"A1,x"bent,x"#).fault, None);
    }
}
