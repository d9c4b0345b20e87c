//! The section through a base at one rod, to one scale both ways, with its dimensions.

use super::base_section::{Piece, PieceKind, Section, ThreadShown};
use super::bounds::Bounds;
use super::dimension::{SIZE, Stretch, chain};
use super::frame::scale_bar;
use super::scale::Scale;
use super::shape::{Anchor, Fill, Hatch, MM, Pen, Picture, Point};
use crate::length::{Length, Rounding};
use crate::text::Style;

/// Where things stand across the picture.
const WIDTH: i64 = 129 * MM;
const WORDS_LEFT: i64 = 33 * MM;
const CHAIN_LEFT: i64 = 36 * MM;
const BODY: [i64; 2] = [39 * MM, 81 * MM];
const CHAIN_RIGHT: [i64; 2] = [84 * MM, 87 * MM];
const CHAIN_BED: i64 = 82 * MM + MM / 5;
const WORDS_RIGHT: i64 = 90 * MM;
/// Up and down it.
const TOP: i64 = 5 * MM;
const PAD: i64 = 13 * MM;
const FOOT: i64 = 9 * MM;
const MOST_HIGH: i64 = 58 * MM;
const LEAST_HIGH: i64 = 22 * MM;

/// The frame a section is drawn in.
struct Sheet {
    scale: Scale,
    /// Where the pad as it was read lies on paper.
    pad: i64,
    middle: i64,
    style: Style,
}

impl Sheet {
    fn y(&self, height: Length) -> i64 {
        self.pad - self.scale.paper(height)
    }

    /// The room between two heights, so wide around the rod.
    fn room(&self, from: Length, to: Length, width: i64) -> Bounds {
        Bounds {
            left: self.middle - width / 2,
            top: self.y(to),
            right: self.middle - width / 2 + width,
            bottom: self.y(from).min(self.pad + PAD - 2 * MM),
        }
    }

    fn write(&self, length: Length, rounding: Rounding) -> String {
        let exact = self.style.exact(length);
        let short = self.style.write(length, rounding);
        if exact.chars().count() <= 8 { exact } else { short }
    }
}

/// Draws a section; `holes` is the diameter of the rod's hole in the plate, where known.
#[must_use]
pub fn section_view(section: &Section, holes: Option<Length>, style: Style) -> Picture {
    let top = section.rod.top.unwrap_or(section.nut_top + section.rod.diameter).max(section.nut_top);
    let all = || section.pieces.iter().chain(&section.in_bed);
    let low = all().map(|piece| piece.from).min().unwrap_or(Length::ZERO).min(Length::ZERO);
    let wide = all()
        .filter(|piece| piece.kind != PieceKind::Pack)
        .filter_map(|piece| piece.width)
        .max()
        .unwrap_or(Length::ZERO);
    let wide = wide.max(section.rod.diameter * 2) + section.rod.diameter;
    let by_height = Scale::of_parts(top - low, MOST_HIGH);
    let by_width = Scale::of_parts(wide, BODY[1] - BODY[0]);
    let metre = Length::from_nm(1_000 * MM);
    let scale = if by_height.paper(metre) < by_width.paper(metre) { by_height } else { by_width };
    let high = scale.paper(top).max(LEAST_HIGH);
    let sheet = Sheet { scale, pad: TOP + high, middle: i64::midpoint(BODY[0], BODY[1]), style };
    let mut picture = Picture { width: WIDTH, height: sheet.pad + PAD + FOOT, shapes: Vec::new() };
    pad(&mut picture, &sheet, section);
    for (number, piece) in section.pieces.iter().enumerate() {
        draw_piece(&mut picture, &sheet, section, piece, number, holes);
    }
    for piece in &section.in_bed {
        draw_piece(&mut picture, &sheet, section, piece, 0, holes);
    }
    rod(&mut picture, &sheet, section);
    left(&mut picture, &sheet, section);
    right(&mut picture, &sheet, section);
    scale_bar(&mut picture, Point::new(BODY[0], sheet.pad + PAD + FOOT - 2 * MM), scale, 24 * MM, style);
    picture
}

/// The concrete, with what is taken off it.
fn pad(picture: &mut Picture, sheet: &Sheet, section: &Section) {
    let ground = section.pieces.iter().find(|piece| piece.kind == PieceKind::Ground);
    let surface = ground.map_or(Length::ZERO, |piece| piece.from);
    let area = Bounds { left: BODY[0], right: BODY[1], top: sheet.y(surface), bottom: sheet.pad + PAD };
    picture.rect(area, None, Fill::Grey);
    picture.hatched(area, Hatch::Concrete);
    picture.line(Point::new(area.left, area.top), Point::new(area.right, area.top), Pen::Thick);
    torn(picture, area.left, area.right, area.bottom);
    let named = Point::new(WORDS_LEFT, sheet.pad + PAD * 3 / 4);
    picture.text(named, Anchor::End, SIZE, "pad");
    picture.line(named.by(MM, -SIZE / 3), Point::new(area.left + MM, named.y - SIZE / 3), Pen::Hair);
}

/// A torn edge: what is drawn goes on below.
fn torn(picture: &mut Picture, left: i64, right: i64, y: i64) {
    let steps = 12;
    let at = |step: i64| {
        let off = if step % 2 == 0 { 0 } else { -MM };
        Point::new(left + (right - left) * step / steps, y + off)
    };
    picture.path((0..=steps).map(at).collect(), Pen::Hair);
}

fn draw_piece(
    picture: &mut Picture,
    sheet: &Sheet,
    section: &Section,
    piece: &Piece,
    number: usize,
    holes: Option<Length>,
) {
    let whole = BODY[1] - BODY[0];
    let hole = sheet.scale.paper(holes.unwrap_or(section.rod.diameter));
    let rod = section.rod.diameter;
    match piece.kind {
        PieceKind::Shim | PieceKind::Plate | PieceKind::SettingPlate => {
            let room = sheet.room(piece.from, piece.to, whole);
            picture.rect(room, None, Fill::Paper);
            let even = number.is_multiple_of(2) && piece.kind == PieceKind::Shim;
            picture.hatched(room, if even { Hatch::Rising } else { Hatch::Falling });
            let open = sheet.room(piece.from, piece.to, hole);
            picture.rect(open, None, Fill::Paper);
            let pen = if piece.kind == PieceKind::Plate { Pen::Medium } else { Pen::Thin };
            for (from, to) in [(room.left, open.left), (open.right, room.right)] {
                for y in [room.top, room.bottom] {
                    picture.line(Point::new(from, y), Point::new(to, y), pen);
                }
            }
            for x in [open.left, open.right] {
                picture.line(Point::new(x, room.top), Point::new(x, room.bottom), Pen::Thin);
            }
        }
        PieceKind::Pack => {
            // at both edges: where packs stand is not known, and they stand beside the rods
            let most = whole / 4;
            let width = piece.width.map_or(most, |width| sheet.scale.paper(width).min(most));
            let pen = if piece.width.is_some() { Pen::Thin } else { Pen::Dashed };
            let room = sheet.room(piece.from, piece.to, whole);
            for (left, right) in [(room.left, room.left + width), (room.right - width, room.right)] {
                let pack = Bounds { left, right, ..room };
                picture.rect(pack, None, Fill::Paper);
                picture.hatched(pack, Hatch::Rising);
                picture.rect(pack, pen, Fill::None);
            }
        }
        PieceKind::Grout => {
            let room = sheet.room(piece.from, piece.to, whole);
            picture.rect(room, Pen::Hair, Fill::Paper);
            picture.hatched(room, Hatch::Dots);
        }
        PieceKind::Ground => {
            let room = sheet.room(piece.from, piece.to, whole);
            picture.rect(room, Pen::Dashed, Fill::Paper);
            picture.hatched(room, Hatch::Crossed);
        }
        PieceKind::Washer | PieceKind::ExtraWasher | PieceKind::LevellingWasher => {
            // not wider than the drawing, and broken where its width is not known
            let known = piece.width.map(|width| sheet.scale.paper(width).min(whole));
            let width = known.unwrap_or_else(|| sheet.scale.paper(rod * 2));
            let pen = if known.is_some() { Pen::Thin } else { Pen::Dashed };
            picture.rect(sheet.room(piece.from, piece.to, width), pen, Fill::Grey);
        }
        PieceKind::Nut | PieceKind::LevellingNut => {
            let known = piece.width.map(|width| sheet.scale.paper(width).min(whole));
            let width = known.unwrap_or_else(|| sheet.scale.paper(rod + rod) * 4 / 5);
            let pen = if known.is_some() { Pen::Medium } else { Pen::Dashed };
            let room = sheet.room(piece.from, piece.to, width);
            picture.rect(room, None, Fill::Paper);
            picture.hatched(room, Hatch::Rising);
            let bore = sheet.room(piece.from, piece.to, sheet.scale.paper(rod));
            picture.rect(bore, Pen::Hair, Fill::Paper);
            picture.rect(room, pen, Fill::None);
        }
    }
}

fn rod(picture: &mut Picture, sheet: &Sheet, section: &Section) {
    let width = sheet.scale.paper(section.rod.diameter);
    let bottom = sheet.pad + PAD - 2 * MM;
    let top = section.rod.top.unwrap_or(section.nut_top + section.rod.diameter);
    let shank = Bounds { bottom, ..sheet.room(Length::ZERO, top, width) };
    let shank = Bounds { top: shank.top.min(bottom - MM), ..shank };
    let known = section.rod.top.is_some();
    picture.rect(shank, if known { Pen::Medium } else { Pen::Dashed }, Fill::Paper);
    if let Some(from) = section.thread_from() {
        let thread = Bounds { bottom: sheet.y(from).clamp(shank.top, bottom), ..shank };
        picture.hatched(thread, Hatch::Thread);
        let pen = match section.rod.thread {
            ThreadShown::Measured(_) => Pen::Medium,
            _ => Pen::Dashed,
        };
        if thread.bottom < bottom {
            picture.line(
                Point::new(shank.left - MM, thread.bottom),
                Point::new(shank.right + MM, thread.bottom),
                pen,
            );
        }
    }
    let nut_top = sheet.y(section.nut_top);
    if section.beyond().is_some_and(Length::is_negative) {
        // how far the nut stands above the end of its rod
        let gap = Bounds { top: nut_top, bottom: shank.top, ..shank };
        picture.rect(gap, Pen::Alarm, Fill::Paper);
    }
    picture.line(Point::new(sheet.middle, bottom + MM), Point::new(sheet.middle, shank.top - MM), Pen::Hair);
}

/// The chain of what is stacked on the pad.
fn left(picture: &mut Picture, sheet: &Sheet, section: &Section) {
    let mut stretches = Vec::new();
    let mut add = |from: Length, to: Length, words: String| {
        let ends = [sheet.y(from), sheet.y(to)];
        stretches.push(Stretch { ends, line_x: CHAIN_LEFT, thing_x: BODY[0], goes_on: false, words });
    };
    let exact = |length: Length| sheet.write(length, Rounding::Nearest);
    match section.raise {
        None => add(Length::ZERO, Length::ZERO, "raise ?".to_owned()),
        Some(raise) if raise == Length::ZERO => add(raise, raise, format!("raise {}", exact(raise))),
        Some(raise) if raise.is_negative() => add(raise, Length::ZERO, format!("ground {}", exact(-raise))),
        Some(raise) => add(Length::ZERO, raise, format!("raise {}", exact(raise))),
    }
    let of = |kind: &[PieceKind]| -> Vec<&Piece> {
        section.pieces.iter().filter(|piece| kind.contains(&piece.kind)).collect()
    };
    for plate in of(&[PieceKind::Plate]) {
        add(plate.from, plate.to, format!("plate {}", exact(plate.height())));
    }
    let washers = of(&[PieceKind::Washer, PieceKind::ExtraWasher]);
    if let (Some(first), Some(last)) = (washers.first(), washers.last()) {
        let many = if washers.len() > 1 { format!("{} washers", washers.len()) } else { "washer".to_owned() };
        add(first.from, last.to, format!("{many} {}", exact(last.to - first.from)));
    }
    for nut in of(&[PieceKind::Nut]) {
        add(nut.from, nut.to, format!("nut {}", exact(nut.height())));
    }
    match (section.beyond(), section.rod.top) {
        (Some(beyond), Some(top)) if beyond.is_negative() => {
            let short = sheet.write(-beyond, Rounding::Up);
            add(top, section.nut_top, format!("short {short}"));
        }
        (Some(beyond), Some(top)) => {
            add(section.nut_top, top, format!("beyond {}", sheet.write(beyond, Rounding::Down)));
        }
        _ => add(section.nut_top, section.nut_top, "beyond ?".to_owned()),
    }
    chain(picture, &stretches, WORDS_LEFT, (MM, sheet.pad + PAD * 3 / 4 - 4 * MM));
}

/// The rod itself, how far it stands, its thread, and what its plate is set on.
fn right(picture: &mut Picture, sheet: &Sheet, section: &Section) {
    let rod = &section.rod;
    let foot = sheet.y(Length::ZERO);
    let tip = sheet.y(rod.top.unwrap_or(section.nut_top + rod.diameter));
    let stands = rod.top.map_or("?".to_owned(), |top| sheet.write(top, Rounding::Down));
    let mut stretches = vec![Stretch {
        ends: [foot, tip],
        line_x: CHAIN_RIGHT[0],
        thing_x: BODY[1],
        goes_on: false,
        words: format!("stands {stands}"),
    }];
    let (words, length) = match rod.thread {
        ThreadShown::Measured(length) => {
            (format!("thread {}", sheet.write(length, Rounding::Down)), Some(length))
        }
        ThreadShown::Drawing(length) => {
            (format!("thread drawn {}", sheet.write(length, Rounding::Down)), Some(length))
        }
        ThreadShown::Unknown => ("thread ?".to_owned(), None),
    };
    let most = sheet.pad + PAD - 2 * MM;
    let end = length.zip(rod.top).map_or(tip, |(length, top)| sheet.y(top - length));
    stretches.push(Stretch {
        ends: [tip, end.min(most)],
        line_x: CHAIN_RIGHT[1],
        thing_x: CHAIN_RIGHT[0],
        goes_on: end > most,
        words,
    });
    for piece in &section.in_bed {
        let name = match piece.kind {
            PieceKind::LevellingWasher => "washer under",
            PieceKind::LevellingNut => "nut under",
            PieceKind::Pack => "packs",
            _ => "setting plate",
        };
        stretches.push(Stretch {
            ends: [sheet.y(piece.from).min(most), sheet.y(piece.to)],
            line_x: CHAIN_BED,
            thing_x: BODY[1],
            goes_on: sheet.y(piece.from) > most,
            words: format!("{name} {}", sheet.write(piece.height(), Rounding::Nearest)),
        });
    }
    chain(picture, &stretches, WORDS_RIGHT, (MM, sheet.pad + PAD));
}
