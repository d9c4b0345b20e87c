//! Workbooks that are damaged in every way: a clear answer, never a panic.

use super::{JOB, Job};
use proptest::prelude::*;
use rust_xlsxwriter::{Format, Formula, Workbook};
use std::fs;
use std::io::{Cursor, Read, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

/// A walk as a workbook, with a cell of every kind.
fn book() -> Vec<u8> {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (column, head) in (0..).zip(["mark", "reading", "low", "high", "note"]) {
        sheet.write_string(0, column, head).unwrap();
    }
    for row in 1..4 {
        sheet.write_string(row, 0, format!("A{row}")).unwrap();
        sheet.write_string(row, 1, "54-1/4").unwrap();
        sheet.write_number(row, 2, 2.5).unwrap();
        sheet.write_number_with_format(row, 3, 2.625, &Format::new().set_num_format("# ?/?")).unwrap();
    }
    sheet.write_formula(2, 2, Formula::new("=C2").set_result("2.5")).unwrap();
    sheet.write_boolean(1, 4, true).unwrap();
    sheet.write_number_with_format(2, 4, 46_030.5, &Format::new().set_num_format("d-mmm h:mm")).unwrap();
    sheet.merge_range(3, 4, 5, 4, "merged", &Format::new()).unwrap();
    book.save_to_buffer().unwrap()
}

/// The parts of a workbook, unpacked.
pub(super) fn parts(book: Vec<u8>) -> Vec<(String, Vec<u8>)> {
    let mut archive = ZipArchive::new(Cursor::new(book)).unwrap();
    let count = archive.len();
    let read = |index| {
        let mut part = archive.by_index(index).unwrap();
        let mut bytes = Vec::new();
        part.read_to_end(&mut bytes).unwrap();
        (part.name().unwrap().to_string(), bytes)
    };
    (0..count).map(read).collect()
}

pub(super) fn packed(parts: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        writer
            .start_file(
                name.as_str(),
                SimpleFileOptions::default().compression_method(CompressionMethod::Stored),
            )
            .unwrap();
        writer.write_all(bytes).unwrap();
    }
    writer.finish().unwrap().into_inner()
}

fn answers(bytes: &[u8]) {
    let job = Job::new(&[("job.toml", &JOB.replace("walk.csv", "book.xlsx"))]);
    fs::write(job.path().join("book.xlsx"), bytes).unwrap();
    job.answers();
}

/// Pieces of a sheet that stand for others of them.
fn piece() -> impl Strategy<Value = String> {
    let pieces = [
        "A1",
        "ZZZZZZZZZZ9",
        "A99999999999",
        "A0",
        "XFD1048576",
        "<c",
        "/>",
        "</c>",
        "<v>",
        "</v>",
        "<f>1+1</f>",
        "t=\"s\"",
        "t=\"b\"",
        "t=\"e\"",
        "t=\"d\"",
        "t=\"str\"",
        "t=\"inlineStr\"",
        "s=\"4294967295\"",
        "s=\"-1\"",
        "<v>1e308</v>",
        "<v>NaN</v>",
        "<v>-0.0</v>",
        "<v>99999999999999999999999</v>",
        "<row r=\"4294967295\">",
        "<row r=\"0\">",
        "</row>",
        "<mergeCell ref=\"A1:XFD1048576\"/>",
        "<mergeCell ref=\"C3:A1\"/>",
        "<f t=\"shared\" si=\"4000000000\" ref=\"A1:A9\">A1</f>",
        "&#0;",
        "&lt;",
        "&x;",
        "<!--",
        "]]>",
        "<![CDATA[",
        "\u{0}",
        "é",
        "\"",
        "#,##0,",
        "d-mmm",
        "[h]",
        "0%",
    ];
    prop::sample::select(pieces.to_vec()).prop_map(str::to_owned)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn random_bytes_are_refused(bytes in prop::collection::vec(any::<u8>(), 0..400), zip in any::<bool>()) {
        let front: &[u8] = if zip { b"PK\x03\x04" } else { b"" };
        answers(&[front, &bytes].concat());
    }

    #[test]
    fn a_workbook_with_changed_bytes_gives_an_answer(
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..8),
        cut in prop::option::of(any::<prop::sample::Index>()),
    ) {
        let mut bytes = book();
        for (at, byte) in changes {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        if let Some(cut) = cut {
            bytes.truncate(cut.index(bytes.len()));
        }
        answers(&bytes);
    }

    #[test]
    fn a_workbook_with_changed_parts_gives_an_answer(
        changes in prop::collection::vec(
            (any::<prop::sample::Index>(), any::<prop::sample::Index>(), 0..30_usize, piece()),
            1..6,
        ),
        only_sheet in any::<bool>(),
    ) {
        let mut parts = parts(book());
        let sheet = parts.iter().position(|(name, _)| name.ends_with("sheet1.xml")).unwrap();
        for (part, at, gone, piece) in changes {
            let part = if only_sheet { sheet } else { part.index(parts.len()) };
            let bytes = &mut parts[part].1;
            let at = at.index(bytes.len());
            let to = (at + gone).min(bytes.len());
            bytes.splice(at..to, piece.into_bytes());
        }
        answers(&packed(&parts));
    }
}

#[test]
fn addresses_and_numbers_that_no_sheet_has_are_refused_or_read() {
    let parts = parts(book());
    let sheet = parts.iter().position(|(name, _)| name.ends_with("sheet1.xml")).unwrap();
    let whole = String::from_utf8(parts[sheet].1.clone()).unwrap();
    for (old, new) in [
        ("r=\"A2\"", "r=\"A99999999999\""),
        ("r=\"A2\"", "r=\"ZZZZZZZZZZZZ2\""),
        ("r=\"A2\"", "r=\"A0\""),
        ("r=\"A2\"", "r=\"A1\""),
        ("r=\"A2\"", "r=\"\""),
        ("<row r=\"2\"", "<row r=\"4294967295\""),
        ("<row r=\"2\"", "<row r=\"0\""),
        ("<v>2.5</v>", "<v>1e308</v>"),
        ("<v>2.5</v>", "<v>NaN</v>"),
        ("<v>2.5</v>", "<v>2,5</v>"),
        ("<v>46030.5</v>", "<v>1e300</v>"),
        ("<v>46030.5</v>", "<v>-1</v>"),
        ("t=\"s\"", "t=\"d\""),
        ("t=\"s\"><v>0", "t=\"s\"><v>4294967296"),
        ("<f>C2</f>", "<f t=\"shared\" si=\"18446744073709551615\" ref=\"C3\">C2</f>"),
        ("E4:E6", "E6:E4"),
        ("E4:E6", "A1:XFD1048576"),
        ("E4:E6", "E4"),
    ] {
        assert!(whole.contains(old), "no {old} in {whole}");
        let mut parts = parts.clone();
        parts[sheet].1 = whole.replacen(old, new, 1).into_bytes();
        answers(&packed(&parts));
    }
}

#[test]
fn a_workbook_that_lacks_a_part_gives_an_answer() {
    let all = parts(book());
    for lost in 0..all.len() {
        let mut parts = all.clone();
        parts.remove(lost);
        answers(&packed(&parts));
    }
    answers(&packed(&all));
}
