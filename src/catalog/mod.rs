//! What hardware and which limits are known, each figure with its source.
//!
//! The tables are TOML files in `catalogs/`, built into the program.

mod authority;
mod bed_practice;
mod embedded;
mod engagement;
mod grades;
mod holes;
mod instruments;
mod limits;
mod limits_read;
mod nuts;
mod part;
mod plates;
mod row;
mod setting_practice;
mod shims;
mod thread_limits;
mod threads;
mod washers;

pub use authority::{Authority, Standing, read_authority};
pub use bed_practice::{
    bed_for_flow, flow_authority, gap_left, instructions_authority, mortar_authority, mortars,
    wants_instructions,
};
pub use embedded::{Catalog, EMBEDDED, load};
pub use engagement::{Engagement, InPitches};
pub use grades::{Finish, Grades, Instead, NutGrade, NutStyle, Recommended, RodGrade};
pub use holes::{HoleRow, Holes, PlainRow};
pub use instruments::{Bubble, InstrumentKind};
pub use limits::{
    Accept, Grind, Grout, Limit, LimitSet, Limits, PadLimits, RodLimits, ShimLimits, WallAccept,
};
pub use limits_read::{read_limit_set, replace_limits};
pub use nuts::Nut;
pub use part::{Extent, Series};
pub use plates::{PlateRow, PlateTable};
pub use setting_practice::{
    LEAST_COVER, PACK_WIDTH, RODS_FOR_NUTS, SETTING_PLATE_SIDE, SETTING_PLATE_SIDE_LIKED,
    SETTING_PLATE_THICKNESS, cover_authority, erection_authority, lightly_loaded_authority, pack_authority,
    perimeter_authority, rods_for_nuts_authority, setting_plate_authority, setting_plate_liked_authority,
    stand_off_authority,
};
pub use shims::{ShimPiece, ShimSeries};
pub use thread_limits::ThreadLimits;
pub use threads::{Pitch, ThreadRow, ThreadTable};
pub use washers::Washer;
