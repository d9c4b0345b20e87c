//! CSV: a head and a row a column; text a spreadsheet could take for a formula is kept as text.

use crate::report::Answer;

/// Writes an answer as CSV.
#[must_use]
pub fn csv(answer: &Answer) -> String {
    rows(answer, harmless)
}

/// Writes an answer as CSV that is filled in and read back: every cell as it stands, since a mark is a mark.
///
/// What a spreadsheet takes for a formula is one to it here.
#[must_use]
pub fn csv_to_fill_in(answer: &Answer) -> String {
    rows(answer, str::to_owned)
}

fn rows(answer: &Answer, cell: fn(&str) -> String) -> String {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    // writing into memory cannot fail, and every row is as wide as the head
    let head = writer.write_record(&answer.sheet.heads);
    let rows = answer.sheet.rows.iter().map(|row| writer.write_record(row.iter().map(|text| cell(text))));
    let written = head.and_then(|()| rows.collect::<Result<(), _>>());
    let bytes = written.ok().and_then(|()| writer.into_inner().ok()).unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

/// Puts an apostrophe before what a spreadsheet would calculate; numbers stay numbers.
fn harmless(cell: &str) -> String {
    if !is_length(cell) && cell.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        return format!("'{cell}");
    }
    cell.to_owned()
}

/// Tells whether a cell is a number, or a length as an answer writes it: `-3175000`, `-1-1/8"`, `+3.2 mm`, `-2'-6"`.
fn is_length(cell: &str) -> bool {
    let body = cell.strip_prefix(['-', '+']).unwrap_or(cell);
    let body = body.strip_suffix(" mm").or_else(|| body.strip_suffix(" m")).unwrap_or(body);
    let written = |c: char| c.is_ascii_digit() || matches!(c, '/' | '.' | '-' | '\'' | '"');
    body.starts_with(|c: char| c.is_ascii_digit()) && body.chars().all(written)
}

#[cfg(test)]
mod tests {
    use super::harmless;

    #[test]
    fn a_formula_in_a_mark_stays_text_and_numbers_stay_numbers() {
        assert_eq!(harmless("=2+5"), "'=2+5");
        assert_eq!(harmless("@A1"), "'@A1");
        assert_eq!(harmless("-cmd"), "'-cmd");
        assert_eq!(harmless("-3175000"), "-3175000");
        assert_eq!(harmless("-1/8\""), "-1/8\"");
        assert_eq!(harmless("-1-1/8\""), "-1-1/8\"");
        assert_eq!(harmless("+3.2 mm"), "+3.2 mm");
        assert_eq!(harmless("-99'-11-7/8\""), "-99'-11-7/8\"");
        assert_eq!(harmless("A1"), "A1");
        // begins as a length does, and is none
        assert_eq!(harmless("-2+3+cmd|' /C calc'!A0"), "'-2+3+cmd|' /C calc'!A0");
        assert_eq!(harmless("-1*A1"), "'-1*A1");
    }
}
