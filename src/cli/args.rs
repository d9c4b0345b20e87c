//! The arguments of every command, with help and examples.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Readings over column pads and measured anchor rods in; what goes under each column out.
///
/// Tells which pads are out of tolerance, which shims go under each column, and whether every nut on every
/// rod keeps full thread. The engineer of record, the drawings and local codes decide.
#[derive(Debug, Parser)]
#[command(name = "rodreach", version, max_term_width = 80, after_help = AFTER)]
pub(crate) struct Cli {
    #[command(subcommand)]
    pub(crate) command: Command,
}

const AFTER: &str = "Exit status: 0 every column may be set and nothing asks or stops; 1 otherwise; 2 the input \
or the command is wrong (nothing is written).\n\nStart: rodreach new my-job, fill in my-job/walk.csv, rodreach check my-job";

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Writes a starter job, commented, ready to fill in
    New(NewArgs),
    /// Reduces the level notes: pad elevations, closure, what does not fit
    Level(LevelArgs),
    /// The main job: what goes under each column, every nut, every hold
    Check(CheckArgs),
    /// One column's arithmetic, every step with its numbers and sources
    Explain(ExplainArgs),
    /// A page for the engineer about every column that is held or asked about, with a box for the answer
    Ask(AskArgs),
    /// The whole answer as one HTML file with drawings, to print or send
    Report(ReportArgs),
    /// The hardware at each column, one row a column
    Hardware(HardwareArgs),
    /// A blank sheet for the slab, in walking order, to print or to fill in and read back
    Sheet(SheetArgs),
    /// What to order: shim plates, washers, grout, masses, and one packet a column
    Order(OrderArgs),
    /// The projection and thread to specify, from tolerances and from measured jobs
    Detail(DetailArgs),
    /// What is checked, and against which source
    Rules(RulesArgs),
    /// What hardware and which limits are known, each figure with its source
    Catalog(CatalogArgs),
}

impl Command {
    /// Gives how the answer is to be written; none where there is no answer.
    pub(crate) const fn out(&self) -> Option<&OutArgs> {
        match self {
            Self::New(_) => None,
            Self::Level(args) => Some(&args.job.out),
            Self::Check(args) => Some(&args.job.out),
            Self::Explain(args) => Some(&args.job.out),
            Self::Ask(args) => Some(&args.job.out),
            Self::Report(args) => Some(&args.job.out),
            Self::Hardware(args) => Some(&args.job.out),
            Self::Sheet(args) => Some(&args.out),
            Self::Order(args) => Some(&args.job.out),
            Self::Detail(args) => Some(&args.out),
            Self::Rules(args) => Some(&args.out),
            Self::Catalog(args) => Some(&args.out),
        }
    }
}

#[derive(Debug, Args)]
#[command(after_help = "Example: rodreach new north-shed; rodreach new plant --units mm")]
pub(crate) struct NewArgs {
    /// The folder to write; it may exist, but may not hold a job yet
    pub(crate) dir: PathBuf,
    /// Inch or metric starter
    #[arg(long, value_enum, default_value_t = UnitsArg::In)]
    pub(crate) units: UnitsArg,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum UnitsArg {
    /// Inches
    In,
    /// Millimetres
    Mm,
}

/// What every command that reads a job takes.
#[derive(Debug, Args)]
pub(crate) struct JobArgs {
    /// The job file, or its folder (job.toml in it)
    pub(crate) job: PathBuf,
    /// A limit set by name or file, instead of the job's
    #[arg(long, value_name = "NAME or FILE")]
    pub(crate) limits: Option<String>,
    /// Level notes, instead of the job's: CSV, or a sheet of a workbook as in book.xlsx#levels
    #[arg(long, value_name = "FILE")]
    pub(crate) levels: Option<PathBuf>,
    /// Rod projections, instead of the job's; likewise
    #[arg(long, value_name = "FILE")]
    pub(crate) rods: Option<PathBuf>,
    /// Readings and rods in the short form, instead of the job's; likewise
    #[arg(long, value_name = "FILE")]
    pub(crate) walk: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) out: OutArgs,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  rodreach level demo-data/packing-hall --format csv -o pads.csv\n  rodreach level demo-data/packing-hall --book"
)]
pub(crate) struct LevelArgs {
    #[command(flatten)]
    pub(crate) job: JobArgs,
    /// The notes as a page of a level book, each section's misclosure shared equally by setup, with its checks
    #[arg(long)]
    pub(crate) book: bool,
}

#[derive(Debug, Args)]
pub(crate) struct OutArgs {
    /// How the answer is written; by default a table (report: html), or what the ending of -o says
    #[arg(long, value_enum)]
    pub(crate) format: Option<FormatArg>,
    /// Writes into a file, whole or not at all; check and hardware write a workbook if it ends in .xlsx
    #[arg(short, long, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum FormatArg {
    /// A screen of 80 columns
    Table,
    /// JSON, lengths in whole nanometres
    Json,
    /// CSV, one row a column
    Csv,
    /// Markdown, with pipe tables
    Md,
    /// One HTML file to print, sign or fill in; `ask`, `report` and `sheet` only
    Html,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  rodreach check demo-data/tractor-shed\n  rodreach check my-job --format json -o answer.json\n  rodreach check my-job --walk today.csv\n  rodreach check my-job --walk today.xlsx -o answer.xlsx\n  rodreach check my-job --to desired\n  rodreach check my-job --hold-at A3=1/4 --without 1/8\n  rodreach check my-job --walk today.csv --since answer.json"
)]
pub(crate) struct CheckArgs {
    #[command(flatten)]
    pub(crate) job: JobArgs,
    #[command(flatten)]
    pub(crate) plan: PlanArgs,
    /// Lists what changed since an earlier answer of check in JSON, and whether what was sent for it still fits
    #[arg(long, value_name = "OLD.json")]
    pub(crate) since: Option<PathBuf>,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  rodreach ask demo-data/tractor-shed\n  rodreach ask my-job -o questions.html\n  rodreach ask my-job --column A4 --format md\n\nExit status: 0 nothing has to be asked; 1 there are pages; 2 the input or the command is wrong"
)]
pub(crate) struct AskArgs {
    #[command(flatten)]
    pub(crate) job: JobArgs,
    /// Only the page of this column; once for each column
    #[arg(long, value_name = "MARK")]
    pub(crate) column: Vec<String>,
    #[command(flatten)]
    pub(crate) plan: PlanArgs,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  rodreach report demo-data/tractor-shed -o shed.html\n  rodreach report my-job > my-job.html\n\nIt is HTML where --format and the ending of -o do not say otherwise; it prints on letter and A4."
)]
pub(crate) struct ReportArgs {
    #[command(flatten)]
    pub(crate) job: JobArgs,
    #[command(flatten)]
    pub(crate) plan: PlanArgs,
}

#[derive(Debug, Args)]
#[command(after_help = "Example: rodreach hardware my-job --format csv -o crate.csv")]
pub(crate) struct HardwareArgs {
    #[command(flatten)]
    pub(crate) job: JobArgs,
    #[command(flatten)]
    pub(crate) plan: PlanArgs,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  rodreach sheet my-job -o sheet.html\n  rodreach sheet my-job --for levels -o levels.csv\n  rodreach sheet my-job --for rods -o rods.csv\n  rodreach sheet my-job --setups 3 -o sheet.html\n\nThe files of measurements need not be there yet. A file that is there already is never replaced by a blank CSV sheet."
)]
pub(crate) struct SheetArgs {
    /// The job file, or its folder (job.toml in it)
    pub(crate) job: PathBuf,
    /// What is read at the slab; by default a walk where the job names one, else all
    #[arg(long = "for", value_enum)]
    pub(crate) read: Option<SheetForArg>,
    /// How many setups of the level the walk is shared among; by default those of the job, or 1
    #[arg(long, value_name = "NUMBER")]
    pub(crate) setups: Option<usize>,
    #[command(flatten)]
    pub(crate) out: OutArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum SheetForArg {
    /// Pads and every rod, on one sheet to print
    All,
    /// One row a column: its pad, its lowest and its highest rod
    Walk,
    /// The pads, with the check shot of every setup
    Levels,
    /// Every rod
    Rods,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  rodreach order demo-data/tractor-shed\n  rodreach order my-job --format csv -o order.csv\n  rodreach order my-job --aim level --format json\n  rodreach order my-job --cut -o cut"
)]
pub(crate) struct OrderArgs {
    #[command(flatten)]
    pub(crate) job: JobArgs,
    /// Draws the shim plates: a DXF and an SVG a kind, and cut-list.csv, into the new folder that -o names
    #[arg(long, requires = "output")]
    pub(crate) cut: bool,
    #[command(flatten)]
    pub(crate) plan: PlanArgs,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  rodreach detail next-job\n  rodreach detail demo-data/measured/* --share 90\n  rodreach detail next-job --probability 99.9 --rod-tops normal\n\nExit status: 0 every base has a specification, nothing it hangs on is unknown, and what its drawing has meets it; 1 otherwise; 2 the input or the command is wrong"
)]
pub(crate) struct DetailArgs {
    /// Job files or their folders: the next job, jobs that were measured, or both
    #[arg(required = true, value_name = "JOB")]
    pub(crate) jobs: Vec<PathBuf>,
    /// A limit set by name or file, instead of those of the jobs
    #[arg(long, value_name = "NAME or FILE")]
    pub(crate) limits: Option<String>,
    /// What is specified is a multiple of this [default: 1/4 in or 5 mm]
    #[arg(long, value_name = "LENGTH")]
    pub(crate) step: Option<String>,
    /// The share of rods, in percent, that are full with the projection beside the worst case
    #[arg(long, value_name = "PERCENT", default_value = "99")]
    pub(crate) probability: String,
    /// The share of columns, in percent, that measured jobs are to clear
    #[arg(long, value_name = "PERCENT", default_value = "95")]
    pub(crate) share: String,
    /// How sure, in percent, measured jobs are to be of that share of all columns
    #[arg(long, value_name = "PERCENT", default_value = "95")]
    pub(crate) confidence: String,
    /// How tops of rods vary within their limits
    #[arg(long, value_enum, default_value_t = SpreadArg::Uniform)]
    pub(crate) rod_tops: SpreadArg,
    /// How plates, washers and nuts vary within their tolerances
    #[arg(long, value_enum, default_value_t = SpreadArg::Uniform)]
    pub(crate) parts: SpreadArg,
    /// How the bearing plane varies between its lowest and its highest
    #[arg(long, value_enum, default_value_t = SpreadArg::Worst)]
    pub(crate) bearing: SpreadArg,
    #[command(flatten)]
    pub(crate) out: OutArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum SpreadArg {
    /// Anywhere in the band alike
    Uniform,
    /// Normal, the band being 1.96 standard deviations to each side
    Normal,
    /// Not at all: at its worst
    Worst,
}

/// What every command that plans takes.
#[derive(Debug, Args)]
pub(crate) struct PlanArgs {
    /// What the plan aims at
    #[arg(long, value_enum, default_value_t = AimArg::Fewest)]
    pub(crate) aim: AimArg,
    /// Which limits the plan keeps
    #[arg(long, value_enum, default_value_t = ToArg::Accept)]
    pub(crate) to: ToArg,
    /// Keeps the limits by value and +-, not by value alone: a difference too close to its limit is not planned
    #[arg(long)]
    pub(crate) guarded: bool,
    /// Holds a column at a raise and plans the rest around it: A3=1/4, A3=0 for nothing under the plate,
    /// A3=-1/16 for grinding; once for each column
    #[arg(long, value_name = "MARK=RAISE")]
    pub(crate) hold_at: Vec<String>,
    /// Plans without the shims of this thickness; once for each thickness
    #[arg(long, value_name = "THICKNESS")]
    pub(crate) without: Vec<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum AimArg {
    /// The fewest interventions that keep every limit
    Fewest,
    /// Every column into a band below one level
    Level,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum ToArg {
    /// What is accepted
    Accept,
    /// What good work comes to, where a limit says so; elsewhere what is accepted
    Desired,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  rodreach explain demo-data/tractor-shed A4\n  rodreach explain demo-data/tractor-shed A2 --hold-at A1=1/8"
)]
pub(crate) struct ExplainArgs {
    #[command(flatten)]
    pub(crate) job: JobArgs,
    /// The mark of the column
    pub(crate) mark: String,
    #[command(flatten)]
    pub(crate) plan: PlanArgs,
}

#[derive(Debug, Args)]
#[command(after_help = "Example: rodreach rules --set en-1090")]
pub(crate) struct RulesArgs {
    /// The limit set to show the rules under
    #[arg(long, value_name = "NAME", default_value = "low-rise")]
    pub(crate) set: String,
    #[command(flatten)]
    pub(crate) out: OutArgs,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Examples: rodreach catalog; rodreach catalog heavy-hex; rodreach catalog washers --format csv; rodreach catalog --unverified"
)]
pub(crate) struct CatalogArgs {
    /// Only the series or kinds whose name holds this
    pub(crate) only: Option<String>,
    /// Only the figures that are from memory, to be checked in the standard
    #[arg(long)]
    pub(crate) unverified: bool,
    #[command(flatten)]
    pub(crate) out: OutArgs,
}
