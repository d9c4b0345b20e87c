//! What hardware stands at each column, what has to be ordered for it, what its packs are made of, what an earlier shipment
//! lacks, and what a partly engaged thread and a rod that bends come to.

mod fastener;
mod grout;
mod hardware;
mod list;
mod mass;
mod outline;
mod packs;
mod rod_bending;
mod since;
mod stock;
mod thread_form;
mod thread_limits;
mod thread_strength;
mod totals;

pub use fastener::{Fastener, FastenerKind};
pub use grout::{Bags, GroutBed, bags, sum_of_volumes};
pub use hardware::{HardwareRow, LevellingHardware, RodHardware, hardware};
pub use list::{FastenerOrder, Ground, GroutOrder, OrderList, PlateOrder, order_list};
pub use mass::{Mass, STEEL, plate_mass, shim_mass, sum_of_masses};
pub use outline::{Holes, Outline, PlateKind, PlateUse};
pub use packs::{ColumnPacks, packs};
pub use rod_bending::{Moment, RodBending};
pub use since::{
    Counts, LevellingSince, PacksSince, ShimsSince, WashersSince, levelling_since, packs_not_known,
    packs_since, shims_since, washers_since,
};
pub use thread_form::{Profile, ThreadForm, both_length};
pub use thread_limits::thread_limits;
pub use thread_strength::{Area, Engaged, ThreadStrength};
pub use totals::{BasePlate, HardwareTotals, totals};
