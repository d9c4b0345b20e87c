//! The job, validated, and the stack-up of parts at a rod.
//!
//! Everything here has been checked by [`crate::input`]: marks are known,
//! indices are in range, parts are found in the catalog.

mod action;
mod allowed;
mod base;
mod bearing;
mod column;
mod earlier;
mod instrument;
mod job;
mod line;
mod loads;
mod outline;
mod raise;
mod readings;
mod setting;
mod shear;
mod stack_up;
mod steel;
mod supplies;
mod walking;

pub use action::Action;
pub use allowed::{Interval, allowed_raises, intersect};
pub use base::{Base, Duty, NutPart, Plate, RodKind, WasherPart};
pub use bearing::{BearingRule, Factor, bearing_rules, most_bearing, nominal_bearing, spread};
pub use column::{ByLevel, Column, Condition, Rod, RodLabel};
pub use earlier::{Earlier, EarlierColumn, EarlierFinding, EarlierLevelling, EarlierPacks, EarlierRod};
pub use instrument::{Instrument, LineOfSight, PegReading, PegTest, Setup, Slope, Tilt};
pub use job::{Job, LimitsInForce, ShimSupply, Units};
pub use line::{Line, LineKind};
pub use loads::{Concrete, Loads, PERCENT_BEFORE_ERECTION};
pub use outline::{Hole, OutlineUnknown, PlateOutline};
pub use raise::Raise;
pub use readings::{
    Benchmark, DifferenceReading, ElevationReading, Readings, Sense, Sight, SightKind, Spot, SpotKind,
    Unmatched,
};
pub use setting::{Levelling, Packs, Setting, SettingPlate};
pub use shear::{
    ON_A_GROUT_PAD, arm_authority, bearing_authority, bending_authority, full_bearing, grout_pad_authority,
    lever_arm, lever_arm_authority, share_on_mortar, share_on_mortar_authority, without_lever_arm,
};
pub use stack_up::{Share, StackUp, State, needed_projection, stack_up, state_at};
pub use steel::{NutSteel, RodSteel, WantedNut};
pub use supplies::{GroutSupply, Supplies};
pub use walking::{Walk, walk};
