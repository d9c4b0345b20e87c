//! A workbook as `.xlsx`: the same workbook gives the same bytes.

mod number;

use crate::report::{Tone, WorkCell, WorkSheet, Workbook};
use crate::text::System;
use number::{count, figure, measure};
use rust_xlsxwriter as book;
use rust_xlsxwriter::{
    Color, ConditionalFormatCell, ConditionalFormatCellRule, DocProperties, ExcelDateTime, Format,
    FormatAlign, FormatBorder, XlsxError,
};
use std::collections::BTreeSet;

/// The paper of inch jobs and of metric ones, as a workbook numbers them.
const LETTER: u8 = 1;
const A4: u8 = 9;

/// Most characters of a cell; a workbook holds no more than 32,767.
const MOST_CHARACTERS: usize = 32_000;

/// Most characters of the name of a job above a printed page; a workbook holds 255 in all.
const MOST_TITLE: usize = 60;

/// Writes a workbook.
///
/// # Errors
/// Gives the words of the library that could not write it; nothing a job holds is known to lead there.
pub fn xlsx(workbook: &Workbook) -> Result<Vec<u8>, String> {
    bytes(workbook).map_err(|error| error.to_string())
}

fn bytes(workbook: &Workbook) -> Result<Vec<u8>, XlsxError> {
    let mut out = book::Workbook::new();
    // no clock: the day stands for none
    let created = ExcelDateTime::from_ymd(2000, 1, 1)?;
    let about = DocProperties::new().set_title(clean(&workbook.title)).set_creation_datetime(&created);
    out.set_properties(&about);
    for (index, sheet) in workbook.sheets.iter().enumerate() {
        let to = out.add_worksheet();
        to.set_name(sheet.name)?.set_active(index == workbook.opens_at);
        cells(sheet, workbook.system, to)?;
        look(sheet, to)?;
        print(sheet, workbook, to)?;
    }
    out.save_to_buffer()
}

/// Writes the cells of a sheet under its heads.
fn cells(sheet: &WorkSheet, system: System, to: &mut book::Worksheet) -> Result<(), XlsxError> {
    let head = Format::new().set_bold().set_text_wrap().set_align(FormatAlign::Top);
    let head = head.set_border_bottom(FormatBorder::Thin);
    let wide = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    let top = Format::new().set_align(FormatAlign::Top);
    let bold = top.clone().set_bold();
    for (at, column) in (0..).zip(&sheet.columns) {
        to.set_column_width(at, column.width)?.write_string_with_format(0, at, clean(&column.head), &head)?;
    }
    for (row, cells) in (1..).zip(&sheet.rows) {
        for ((at, column), cell) in (0..).zip(&sheet.columns).zip(cells) {
            match cell {
                WorkCell::Blank => continue,
                // always a text: what looks like a formula is none
                WorkCell::Text(text) => {
                    let format = if column.wraps { &wide } else { &top };
                    to.write_string_with_format(row, at, clean(text), format)?
                }
                WorkCell::Verdict(_, word) => to.write_string_with_format(row, at, *word, &bold)?,
                WorkCell::Whole(whole) => match count(*whole) {
                    Some(number) => {
                        to.write_number_with_format(row, at, number, &top.clone().set_num_format("0"))?
                    }
                    None => to.write_string_with_format(row, at, whole.to_string(), &top)?,
                },
                WorkCell::Figure(number) => match figure(number) {
                    Some(number) => {
                        to.write_number_with_format(row, at, number, &top.clone().set_num_format("0.0#####"))?
                    }
                    None => to.write_string_with_format(row, at, number.to_string(), &top)?,
                },
                WorkCell::Length(length) => {
                    let (number, format) = measure(*length, system);
                    to.write_number_with_format(row, at, number, &top.clone().set_num_format(format))?
                }
            };
        }
    }
    Ok(())
}

/// Freezes the heads and the first column, lets rows be picked, and colours the verdicts.
fn look(sheet: &WorkSheet, to: &mut book::Worksheet) -> Result<(), XlsxError> {
    let (last_row, last_column) = extent(sheet);
    to.set_freeze_panes(1, u16::from(sheet.is_table))?;
    if sheet.is_table && last_row > 0 {
        to.autofilter(0, 0, last_row, last_column)?;
    }
    let mut words = BTreeSet::new();
    for row in &sheet.rows {
        for (at, cell) in (0_u16..).zip(row) {
            if let WorkCell::Verdict(tone, word) = cell {
                words.extend(colours(*tone).map(|colours| (at, *word, colours)));
            }
        }
    }
    for (at, word, (ground, ink)) in words {
        let format = Format::new().set_background_color(Color::RGB(ground)).set_font_color(Color::RGB(ink));
        let rule = ConditionalFormatCellRule::EqualTo(word);
        let rule = ConditionalFormatCell::new().set_rule(rule).set_format(format);
        to.add_conditional_format(1, at, last_row, at, &rule)?;
    }
    Ok(())
}

/// Gives ground and ink of a verdict; none is plain.
const fn colours(tone: Tone) -> Option<(u32, u32)> {
    match tone {
        Tone::Good => Some((0x00E2_EFDA, 0x0037_5623)),
        Tone::Stop => Some((0x00F8_CBAD, 0x009C_0006)),
        Tone::Ask => Some((0x00FF_EB9C, 0x007F_4F00)),
        Tone::Plain | Tone::Quiet => None,
    }
}

/// Sets a sheet up to be printed: one page wide, its heads on every page.
fn print(sheet: &WorkSheet, workbook: &Workbook, to: &mut book::Worksheet) -> Result<(), XlsxError> {
    let (last_row, _) = extent(sheet);
    let paper = match workbook.system {
        System::Inch => LETTER,
        System::Metric => A4,
    };
    to.set_paper_size(paper).set_landscape().set_print_fit_to_pages(1, 0);
    to.set_repeat_rows(0, 0)?;
    to.set_print_area(0, 0, last_row, u16::try_from(sheet.printed.saturating_sub(1)).unwrap_or(u16::MAX))?;
    let title: String = clean(&workbook.title).chars().take(MOST_TITLE).collect();
    // an ampersand would begin a command
    let plain = |text: &str| text.replace('&', "&&");
    to.set_header(format!("&L{}&R{}", plain(&title), plain(sheet.name)));
    to.set_footer(format!("&L{}&RPage &P of &N", plain(workbook.foot)));
    Ok(())
}

/// Gives the last row and the last column of a sheet.
fn extent(sheet: &WorkSheet) -> (u32, u16) {
    let last_row = u32::try_from(sheet.rows.len()).unwrap_or(u32::MAX);
    (last_row, u16::try_from(sheet.columns.len().saturating_sub(1)).unwrap_or(u16::MAX))
}

/// Takes out what a cell cannot hold, or what would hide or turn round what stands beside it.
fn clean(text: &str) -> String {
    let shown = |c: char| if super::escape::hides(c) { ' ' } else { c };
    let mut clean: String = text.chars().take(MOST_CHARACTERS).map(shown).collect();
    if text.chars().nth(MOST_CHARACTERS).is_some() {
        clean.push('…');
    }
    clean
}
