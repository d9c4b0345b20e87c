//! Workbooks as input: read like CSV, and what a spreadsheet has made of a reading told with its cell.

use super::workbook_mutated::{packed, parts};
use super::{JOB, Job, WALK, assert_told, told};
use crate::input::{Override, load};
use rust_xlsxwriter::{Format, Formula, Workbook, Worksheet};
use std::fs;

/// A job whose walk is a workbook that was filled so.
fn job(walk: &str, fill: impl Fn(&mut Workbook)) -> Job {
    let job = Job::new(&[("job.toml", &JOB.replace("walk.csv", walk))]);
    let mut book = Workbook::new();
    fill(&mut book);
    let file = walk.split('#').next().unwrap();
    fs::write(job.path().join(file), book.save_to_buffer().unwrap()).unwrap();
    job
}

const HEADS: [&str; 4] = ["mark", "reading", "low", "high"];

/// Writes texts row by row from the second row on, under the heads.
fn texts(sheet: &mut Worksheet, rows: &[[&str; 4]]) {
    for (row, cells) in (0..).zip(std::iter::once(&HEADS).chain(rows)) {
        for (column, cell) in (0..).zip(cells) {
            sheet.write_string(row, column, *cell).unwrap();
        }
    }
}

/// A job whose walk is one sheet with one good row, and then changed.
fn changed(change: impl Fn(&mut Worksheet)) -> Job {
    job("book.xlsx", |book| {
        let sheet = book.add_worksheet();
        texts(sheet, &[["A1", "54-1/4", "2-1/2", "2-5/8"], ["A2", "54-3/8", "2-1/2", ""]]);
        change(sheet);
    })
}

fn faults(job: &Job) -> Vec<String> {
    let refused = job.load().unwrap_err();
    // nothing of a sheet is told by line and column
    let places = refused.problems.iter().map(|problem| match problem.place {
        Some(place) => format!("{}: {}", refused.files.whereabouts(place), problem.message),
        None => problem.message.clone(),
    });
    places.collect()
}

fn readings(job: &Job) -> Vec<i64> {
    job.load().unwrap().job.readings.sights.iter().map(|it| it.reading.nm()).collect()
}

#[test]
fn a_sheet_of_texts_is_the_same_job_as_the_csv_file() {
    let csv = Job::new(&[("job.toml", JOB), ("walk.csv", WALK)]).load().unwrap().job;
    let book = changed(|_| {}).load().unwrap().job;
    assert_eq!(book.readings.sights.len(), 2);
    for (one, other) in csv.columns.iter().zip(&book.columns) {
        assert_eq!(one.mark, other.mark);
        assert_eq!(
            one.rods.iter().map(|rod| rod.projection).collect::<Vec<_>>(),
            other.rods.iter().map(|rod| rod.projection).collect::<Vec<_>>()
        );
    }
    let nm = |job: &crate::model::Job| job.readings.sights.iter().map(|it| it.reading).collect::<Vec<_>>();
    assert_eq!(nm(&csv), nm(&book));
    assert_eq!(book.files, ["job.toml", "book.xlsx"]);
}

#[test]
fn a_number_is_read_by_the_digits_that_were_typed() {
    let feet = |sheet: &mut Worksheet| {
        sheet.write_number(1, 1, 4.33).unwrap();
        sheet.write_number(2, 1, 0.1 + 0.7).unwrap();
    };
    let job = changed(feet);
    let text = fs::read_to_string(job.path().join("job.toml")).unwrap();
    fs::write(job.path().join("job.toml"), text.replace("book.xlsx\"", "book.xlsx\"\nlevels_units = \"ft\""))
        .unwrap();
    // 0.1 + 0.7 is 0.7999999999999999 in a spreadsheet's numbers, which nobody typed
    assert_told(&faults(&job), &["book.xlsx: Sheet1!B3: `0.7999999999999999`: this has more decimals"]);
    let job = changed(|sheet| {
        sheet.write_number(1, 1, 4.33).unwrap();
        sheet.write_number(2, 1, 0.1).unwrap();
        sheet.write_number(1, 2, 2.015625).unwrap();
    });
    let text = fs::read_to_string(job.path().join("job.toml")).unwrap();
    fs::write(job.path().join("job.toml"), text.replace("book.xlsx\"", "book.xlsx\"\nlevels_units = \"ft\""))
        .unwrap();
    assert_eq!(readings(&job), [433 * 3_048_000, 30_480_000]);
    assert_eq!(job.load().unwrap().job.columns[0].rods[0].projection.unwrap().nm(), 129 * 396_875);
}

#[test]
fn a_number_shown_as_a_fraction_is_inches_also_where_bare_numbers_are_feet() {
    let fraction = Format::new().set_num_format("# ??/??");
    let job = changed(|sheet| {
        sheet.write_number_with_format(1, 1, 54.25, &fraction).unwrap();
        sheet.write_number_with_format(2, 1, 54, &fraction).unwrap();
    });
    let text = fs::read_to_string(job.path().join("job.toml")).unwrap();
    fs::write(job.path().join("job.toml"), text.replace("book.xlsx\"", "book.xlsx\"\nlevels_units = \"ft\""))
        .unwrap();
    assert_eq!(readings(&job), [54 * 25_400_000 + 6_350_000, 54 * 25_400_000]);
}

#[test]
fn a_typed_fraction_that_became_a_date_is_reported_and_never_converted() {
    let job = changed(|sheet| {
        let date = Format::new().set_num_format("d-mmm");
        sheet.write_number_with_format(1, 2, 46_030, &date).unwrap();
        sheet.write_number_with_format(2, 0, 46_030, &date).unwrap();
    });
    assert_told(
        &faults(&job),
        &[
            "book.xlsx: Sheet1!C2: `2026-01-08`: this is a date",
            "book.xlsx: Sheet1!A3: `2026-01-08`: this is a date",
        ],
    );
    let refused = job.load().unwrap_err();
    assert!(told(&refused)[0].contains("format the column as text before typing 1/8, or write 0.125"));
}

#[test]
fn a_formula_that_nobody_calculated_is_reported() {
    // the library that writes this book calculates nothing, puts 0 there and says so
    let job = changed(|sheet| {
        let _ = sheet.write_formula(1, 1, "=54+1/4").unwrap();
    });
    assert_told(
        &faults(&job),
        &["book.xlsx: Sheet1!B2: this formula has no value that a spreadsheet calculated"],
    );
    let job = changed(|sheet| {
        let _ = sheet.write_formula(1, 1, Formula::new("=1").set_result("")).unwrap();
    });
    assert_told(&faults(&job), &["book.xlsx: Sheet1!B2: this formula has no value"]);
}

/// Makes the workbook of a job one that a spreadsheet program has calculated: its formulas hold their values.
fn calculated(job: &Job) {
    let path = job.path().join("book.xlsx");
    let mut parts = parts(fs::read(&path).unwrap());
    let (_, bytes) = parts.iter_mut().find(|(name, _)| name == "xl/workbook.xml").unwrap();
    let text = String::from_utf8(bytes.clone()).unwrap();
    assert!(text.contains(" fullCalcOnLoad=\"1\""), "{text}");
    *bytes = text.replace(" fullCalcOnLoad=\"1\"", "").into_bytes();
    fs::write(path, packed(&parts)).unwrap();
}

#[test]
fn a_formula_that_was_calculated_is_read_by_its_value_and_an_error_is_told() {
    let formula = |text: &str, result: &str| Formula::new(text).set_result(result);
    let job = changed(|sheet| {
        sheet.write_formula(1, 1, formula("=B3-1/8", "54.25 in")).unwrap();
        sheet.write_formula(1, 2, formula("=2+1/2", "2.5")).unwrap();
        sheet.write_formula(1, 3, formula("=\"2-\"&\"5/8\"", "2-5/8")).unwrap();
    });
    calculated(&job);
    let loaded = job.load().unwrap().job;
    assert_eq!(loaded.readings.sights[0].reading.nm(), 54 * 25_400_000 + 6_350_000);
    let rods: Vec<i64> = loaded.columns[0].rods.iter().map(|rod| rod.projection.unwrap().nm()).collect();
    assert_eq!(rods, [63_500_000, 66_675_000]);
    let job = changed(|sheet| {
        sheet.write_formula(1, 2, formula("=NA()", "#N/A")).unwrap();
        sheet.write_formula(2, 2, formula("=1/0", "#DIV/0!")).unwrap();
    });
    calculated(&job);
    assert_told(
        &faults(&job),
        &[
            "book.xlsx: Sheet1!C2: this cell holds the error `#N/A`",
            "book.xlsx: Sheet1!C3: this cell holds the error `#DIV/0!`",
        ],
    );
}

#[test]
fn truths_errors_merged_cells_and_odd_formats_are_reported_all_in_one_run() {
    let job = changed(|sheet| {
        sheet.write_boolean(1, 1, true).unwrap();
        sheet.write_string(4, 0, "A4").unwrap();
        sheet.write_number_with_format(4, 1, 54, &Format::new().set_num_format("0%")).unwrap();
        sheet.merge_range(5, 0, 6, 0, "A5", &Format::new()).unwrap();
        sheet.write_string(5, 1, "54 in").unwrap();
        sheet.write_string(6, 1, "54-1/8").unwrap();
        sheet.write_string(6, 2, "two").unwrap();
        sheet.write_string(6, 5, "stray").unwrap();
    });
    assert_told(
        &faults(&job),
        &[
            "book.xlsx: Sheet1!B2: this is true or false",
            "book.xlsx: Sheet1!B5: `54`: the number format `0%` shows it as something else",
            "book.xlsx: Sheet1!A6: the cells A6 to A7 are merged",
            "book.xlsx: Sheet1!C7: `two`: this is not a length",
            "book.xlsx: Sheet1!F7: `stray` stands in a column without a name",
        ],
    );
}

#[test]
fn blank_rows_and_columns_before_and_between_are_nothing() {
    let job = job("book.xlsx", |book| {
        let sheet = book.add_worksheet();
        for (row, cells) in
            [(3, HEADS), (5, ["A1", "54 in", "2-1/2", "2-5/8"]), (9, ["A2", "54-1/8", "2-1/2", " "])]
        {
            for (column, cell) in (2..).zip(cells) {
                sheet.write_string(row, column, cell).unwrap();
            }
        }
    });
    let loaded = job.load().unwrap();
    assert_eq!(loaded.job.columns.len(), 2);
    let place = loaded.job.readings.sights[1].place;
    assert_eq!(loaded.files.whereabouts(place), "book.xlsx: Sheet1!D10");
    assert_eq!(loaded.files.line_and_column(place), (10, 4));
}

#[test]
fn a_title_above_the_header_row_is_told() {
    let job = job("book.xlsx", |book| {
        let sheet = book.add_worksheet();
        sheet.write_string(0, 0, "North shed, walked on 8 May").unwrap();
        for (column, head) in (0..).zip(HEADS) {
            sheet.write_string(2, column, head).unwrap();
        }
    });
    assert_told(&faults(&job), &["book.xlsx: Sheet1!A3: the names of the columns stand in this row"]);
}

#[test]
fn the_first_sheet_that_is_shown_is_read_or_the_one_that_is_named() {
    let fill = |book: &mut Workbook| {
        book.add_worksheet().set_name("Notes").unwrap().set_hidden(true);
        texts(
            book.add_worksheet().set_name("Walk 1").unwrap().set_active(true),
            &[["A1", "54 in", "2", "2"]],
        );
        texts(book.add_worksheet().set_name("Walk 2").unwrap(), &[["A1", "55 in", "2", "2"]]);
    };
    assert_eq!(readings(&job("book.xlsx", fill)), [54 * 25_400_000]);
    assert_eq!(readings(&job("book.xlsx#Walk 2", fill)), [55 * 25_400_000]);
    assert_eq!(readings(&job("book.xlsx#walk 2", fill)), [55 * 25_400_000], "capitals aside");
    assert_eq!(job("book.xlsx#walk 2", fill).load().unwrap().job.files[1], "book.xlsx#Walk 2");
    assert_told(
        &job("book.xlsx#Walk 3", fill).faults(),
        &["job.toml:7:8: `book.xlsx` has no sheet `Walk 3` | did you mean `Walk 1`?"],
    );
    assert_told(&job("book.xlsx#", fill).faults(), &["job.toml:7:8: `book.xlsx` is named without its sheet"]);
    // on the command line as well
    let other = job("other.xlsx", fill);
    let walk = other.path().join("other.xlsx#Walk 2");
    let with = Override { walk: Some(walk), ..Override::default() };
    assert_eq!(load(other.path(), &with).unwrap().job.readings.sights[0].reading.nm(), 55 * 25_400_000);
}

#[test]
fn what_is_no_workbook_is_refused_in_plain_words() {
    let whole = {
        let job = changed(|_| {});
        fs::read(job.path().join("book.xlsx")).unwrap()
    };
    let cut = &whole[..whole.len() / 2];
    for (bytes, words) in [
        (b"mark,reading\n".as_slice(), "is not a workbook, whatever its ending says"),
        (b"", "is not a workbook"),
        (cut, "is damaged"),
        (&[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], "is protected by a password, or is an old .xls"),
        (b"PK\x05\x06\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0", "is damaged"),
    ] {
        let job = changed(|_| {});
        fs::write(job.path().join("book.xlsx"), bytes).unwrap();
        assert_told(&job.faults(), &[&format!("job.toml:7:8: `book.xlsx` {words}")]);
    }
    for ending in ["xls", "ods", "xlsb"] {
        let job = Job::new(&[("job.toml", &JOB.replace("walk.csv", &format!("walk.{ending}")))]);
        assert_told(
            &job.faults(),
            &[&format!(
                "job.toml:7:8: `walk.{ending}` is a spreadsheet of a kind that is not read: .{ending} | save it as .xlsx"
            )],
        );
    }
}

#[test]
fn a_workbook_that_unpacks_to_more_than_any_readings_is_refused() {
    use std::io::Write;
    let whole = fs::read(changed(|_| {}).path().join("book.xlsx")).unwrap();
    let mut archive = zip::ZipArchive::new(std::io::Cursor::new(whole)).unwrap();
    let mut bomb = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    for index in 0..archive.len() {
        bomb.raw_copy_file(archive.by_index(index).unwrap()).unwrap();
    }
    bomb.start_file("xl/media/image1.png", zip::write::SimpleFileOptions::default()).unwrap();
    let nothing = vec![0_u8; 1024 * 1024];
    for _ in 0..65 {
        bomb.write_all(&nothing).unwrap();
    }
    let bytes = bomb.finish().unwrap().into_inner();
    assert!(bytes.len() < 200_000, "{}", bytes.len());
    let job = changed(|_| {});
    fs::write(job.path().join("book.xlsx"), bytes).unwrap();
    assert_told(&job.faults(), &["job.toml:7:8: `book.xlsx` is larger than any sheet of readings"]);
}

#[test]
fn cells_in_the_furthest_corner_do_not_fill_the_memory() {
    let job = changed(|sheet| {
        for row in 0..80 {
            sheet.write_string(1_048_575 - row, 16_383, "x").unwrap();
        }
    });
    assert_told(&job.faults(), &["job.toml:7:8: `book.xlsx` is larger than any sheet of readings"]);
    let job = changed(|sheet| {
        let _ = sheet.write_string(1_048_575, 16_383, "x").unwrap();
    });
    assert_told(
        &faults(&job),
        &[
            "book.xlsx: Sheet1!A1048576: a name is needed here",
            "book.xlsx: Sheet1!XFD1048576: `x` stands in a column without a name",
        ],
    );
}

#[test]
fn a_surveyors_sheet_without_a_header_row_is_read() {
    let job = Job::new(&[
        (
            "job.toml",
            &JOB.replace("[measure]", "[measure]\nlevels_units = \"ft\"\nelevations = \"pts.xlsx\""),
        ),
        ("walk.csv", WALK),
    ]);
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (row, (point, elevation, what)) in (0..).zip([(101.0, 99.98, "A1"), (102.0, 99.97, "A2")]) {
        sheet.write_number(row, 0, point).unwrap();
        sheet.write_number(row, 1, 5000.1).unwrap();
        sheet.write_number(row, 2, 5000).unwrap();
        sheet.write_number(row, 3, elevation).unwrap();
        sheet.write_string(row, 4, what).unwrap();
    }
    fs::write(job.path().join("pts.xlsx"), book.save_to_buffer().unwrap()).unwrap();
    let loaded = job.load().unwrap().job;
    let found: Vec<i64> = loaded.readings.elevations.iter().map(|it| it.elevation.nm()).collect();
    assert_eq!(found, [9998 * 3_048_000, 9997 * 3_048_000]);
}

#[test]
fn a_sheet_without_rows_and_one_without_anything_are_told() {
    let job = job("book.xlsx", |book| texts(book.add_worksheet(), &[]));
    assert_told(&faults(&job), &["book.xlsx: Sheet1!D1: this file has a header row and no rows"]);
    let job = self::job("book.xlsx", |book| {
        let _ = book.add_worksheet();
    });
    assert_told(&faults(&job), &["book.xlsx: Sheet1: this file is empty"]);
}
