//! What stands on one rod, in section: exact heights above the pad.

use crate::length::Length;
use crate::model::{Base, Setting};
use crate::plan::{Action, StackPiece};

/// What a piece of a section is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PieceKind {
    /// A shim.
    Shim,
    /// Grout.
    Grout,
    /// Taken off the pad.
    Ground,
    /// The base plate.
    Plate,
    /// A washer of the drawing.
    Washer,
    /// A washer added under the nut.
    ExtraWasher,
    /// A nut.
    Nut,
    /// A washer under the plate, on a levelling nut.
    LevellingWasher,
    /// A levelling nut.
    LevellingNut,
    /// A pack, beside the rods.
    Pack,
    /// A setting plate.
    SettingPlate,
}

/// One piece on the rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece {
    /// What it is.
    pub kind: PieceKind,
    /// Where it begins, above the pad.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Its width, where known; a plate and what lies under it go on.
    pub width: Option<Length>,
}

impl Piece {
    /// Gives its height.
    #[must_use]
    pub fn height(&self) -> Length {
        self.to - self.from
    }
}

/// What is known of the thread of a rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThreadShown {
    /// So much was measured, down from the top.
    Measured(Length),
    /// So much is on the drawing; it was not measured.
    Drawing(Length),
    /// Nothing.
    Unknown,
}

/// The rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SectionRod {
    /// Its diameter.
    pub diameter: Length,
    /// Its top above the pad, where known.
    pub top: Option<Length>,
    /// Its thread.
    pub thread: ThreadShown,
}

/// A section through a base at one rod, from the pad up, parts at their nominal.
///
/// # Units
/// Exact nanometres above the pad as it was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// The pieces, from the pad up.
    pub pieces: Vec<Piece>,
    /// What the plate is set on in its bed of grout, from the plate down, where the job says; its height is known.
    pub in_bed: Vec<Piece>,
    /// The rod.
    pub rod: SectionRod,
    /// The underside of the plate; none where it is not planned, and then it is drawn on the pad.
    pub raise: Option<Length>,
    /// The top of the outer nut.
    pub nut_top: Length,
}

impl Section {
    /// Gives the rod above the outer nut, less than nothing where it ends below; none where its top is not known.
    #[must_use]
    pub fn beyond(&self) -> Option<Length> {
        self.rod.top.map(|top| top - self.nut_top)
    }

    /// Gives where the thread begins; none where it is not known.
    #[must_use]
    pub fn thread_from(&self) -> Option<Length> {
        match self.rod.thread {
            ThreadShown::Measured(thread) | ThreadShown::Drawing(thread) => Some(self.rod.top? - thread),
            ThreadShown::Unknown => None,
        }
    }
}

/// Works out a section: what is planned under the plate, the plate, washers and nuts, and the rod.
#[must_use]
pub fn section(
    base: &Base,
    (action, raise, stack): (Action, Option<Length>, &[StackPiece]),
    extra_washers: u32,
    rod: SectionRod,
) -> Section {
    let mut pieces = Vec::new();
    let mut top = Length::ZERO;
    let seat = raise.unwrap_or(Length::ZERO);
    match action {
        Action::Shim => {
            for piece in stack {
                for _ in 0..piece.count {
                    put(&mut pieces, PieceKind::Shim, &mut top, piece.thickness, None);
                }
            }
        }
        Action::Grout if seat > Length::ZERO => {
            put(&mut pieces, PieceKind::Grout, &mut top, seat, None);
        }
        Action::Grind if seat.is_negative() => {
            pieces.push(Piece { kind: PieceKind::Ground, from: seat, to: Length::ZERO, width: None });
        }
        _ => {}
    }
    // the plate stands where the plan has it, whatever the pieces come to
    top = seat;
    put(&mut pieces, PieceKind::Plate, &mut top, base.plate.thickness.nominal, None);
    for washer in &base.washers {
        put(&mut pieces, PieceKind::Washer, &mut top, washer.thickness.nominal, washer.outer);
    }
    if let Some(washer) = &base.extra {
        for _ in 0..extra_washers {
            put(&mut pieces, PieceKind::ExtraWasher, &mut top, washer.thickness.nominal, washer.outer);
        }
    }
    for nut in &base.nuts {
        put(&mut pieces, PieceKind::Nut, &mut top, nut.height.nominal, nut.flats);
    }
    let in_bed = if action == Action::Grout { in_bed(base, seat) } else { Vec::new() };
    Section { pieces, in_bed, rod, raise, nut_top: top }
}

/// Gives what a plate is set on in a bed that ends at its underside.
fn in_bed(base: &Base, seat: Length) -> Vec<Piece> {
    let hung =
        |kind, from: Length, height: Length, width| Piece { kind, from: from - height, to: from, width };
    match &base.setting {
        _ if seat <= Length::ZERO => Vec::new(),
        None | Some(Setting::Pad | Setting::Shims) => Vec::new(),
        Some(Setting::Nuts(levelling)) => {
            let washer = levelling
                .washer
                .as_ref()
                .map(|washer| hung(PieceKind::LevellingWasher, seat, washer.thickness.nominal, washer.outer));
            let under = washer.map_or(seat, |washer| washer.from);
            let nut = &levelling.nut;
            washer
                .into_iter()
                .chain([hung(PieceKind::LevellingNut, under, nut.height.nominal, nut.flats)])
                .collect()
        }
        Some(Setting::Packs(packs)) => {
            vec![hung(PieceKind::Pack, seat, seat, packs.size.map(|[side, _]| side))]
        }
        Some(Setting::Plate(plate)) => plate
            .thickness
            .map(|thick| hung(PieceKind::SettingPlate, seat, thick, None))
            .into_iter()
            .collect(),
    }
}

fn put(pieces: &mut Vec<Piece>, kind: PieceKind, top: &mut Length, height: Length, width: Option<Length>) {
    pieces.push(Piece { kind, from: *top, to: *top + height, width });
    *top = *top + height;
}
