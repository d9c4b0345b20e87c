//! Jobs that hold nothing but level notes, for the tests.

use crate::length::{Bare, Length, Unit, read};
use crate::levels::{Levelled, reduce};
use crate::model::{
    Benchmark, Column, DifferenceReading, ElevationReading, Instrument, Job, LimitsInForce, Line, LineKind,
    Readings, RodLabel, Sense, Setup, ShimSupply, Sight, SightKind, Spot, SpotKind, Supplies, Units,
};
use crate::source::{Files, Place};

/// Level notes as they are written down, line by line.
#[derive(Clone)]
pub(in crate::levels) struct Notes {
    unit: Unit,
    readings: Readings,
    columns: Vec<String>,
    places: Vec<(String, [Length; 2])>,
    seats: Vec<(String, Length)>,
    walls: Vec<Vec<String>>,
    lines: usize,
}

impl Notes {
    pub(in crate::levels) fn of(unit: Unit) -> Self {
        let readings = Readings {
            plus_minus: Length::from_nm(1_587_500),
            plus_minus_assumed: true,
            ..Readings::default()
        };
        Self {
            unit,
            readings,
            columns: Vec::new(),
            places: Vec::new(),
            seats: Vec::new(),
            walls: Vec::new(),
            lines: 0,
        }
    }

    fn length(&self, text: &str) -> Length {
        read(text, Bare::of(self.unit)).unwrap()
    }

    fn point(&mut self, name: &str) -> usize {
        index(&mut self.readings.points, name)
    }

    fn set_up(&mut self, name: &str) -> usize {
        let setups = &mut self.readings.setups;
        setups.iter().position(|setup| setup.name == name).unwrap_or_else(|| {
            setups.push(Setup::named(name));
            setups.len() - 1
        })
    }

    /// Gives the next place; its first byte counts the readings.
    fn place(&mut self) -> Place {
        let file = Files::default().add("levels.csv", String::new());
        self.lines += 1;
        Place { file, start: self.lines - 1, end: self.lines }
    }

    pub(in crate::levels) fn sense(mut self, sense: Sense) -> Self {
        self.readings.sense = sense;
        self
    }

    pub(in crate::levels) fn plus_minus(mut self, text: &str) -> Self {
        self.readings.plus_minus = self.length(text);
        self
    }

    pub(in crate::levels) fn benchmark(mut self, point: &str, elevation: &str) -> Self {
        let (point, elevation, place) = (self.point(point), self.length(elevation), self.place());
        let plus_minus = Length::ZERO;
        self.readings.benchmarks.push(Benchmark { point, elevation, plus_minus, at: None, place });
        self
    }

    pub(in crate::levels) fn elevation(mut self, point: &str, elevation: &str, plus_minus: &str) -> Self {
        let (elevation, plus_minus) = (self.length(elevation), self.length(plus_minus));
        let (point, place) = (self.point(point), self.place());
        self.readings.elevations.push(ElevationReading { point, elevation, plus_minus, place });
        self
    }

    pub(in crate::levels) fn sight(mut self, setup: &str, point: &str, reading: &str) -> Self {
        let reading = self.length(reading);
        let (setup, point) = (self.set_up(setup), self.point(point));
        let (kind, place) = (SightKind::Intermediate, self.place());
        let distance = None;
        self.readings.sights.push(Sight { setup, point, kind, reading, distance, place });
        self
    }

    /// Adds a sight with its length.
    pub(in crate::levels) fn sight_over(
        mut self,
        setup: &str,
        point: &str,
        reading: &str,
        distance: &str,
    ) -> Self {
        let distance = self.length(distance);
        self = self.sight(setup, point, reading);
        if let Some(sight) = self.readings.sights.last_mut() {
            sight.distance = Some(distance);
        }
        self
    }

    pub(in crate::levels) fn difference(
        mut self,
        from: &str,
        to: &str,
        difference: &str,
        plus_minus: &str,
    ) -> Self {
        let (difference, plus_minus) = (self.length(difference), self.length(plus_minus));
        let (from, to, place) = (self.point(from), self.point(to), self.place());
        self.readings.differences.push(DifferenceReading { from, to, difference, plus_minus, place });
        self
    }

    /// Gives a benchmark a +- of its own.
    pub(in crate::levels) fn benchmark_good_to(
        mut self,
        point: &str,
        elevation: &str,
        plus_minus: &str,
    ) -> Self {
        let plus_minus = self.length(plus_minus);
        self = self.benchmark(point, elevation);
        if let Some(benchmark) = self.readings.benchmarks.last_mut() {
            benchmark.plus_minus = plus_minus;
        }
        self
    }

    /// Says where a column stands.
    pub(in crate::levels) fn stands(mut self, mark: &str, x: &str, y: &str) -> Self {
        let at = [self.length(x), self.length(y)];
        self.places.push((mark.to_owned(), at));
        self
    }

    /// Gives a column a design seat of its own.
    pub(in crate::levels) fn seat(mut self, mark: &str, seat: &str) -> Self {
        let seat = self.length(seat);
        self.seats.push((mark.to_owned(), seat));
        self
    }

    /// Adds a wall line of columns 6 m apart.
    pub(in crate::levels) fn wall(mut self, marks: &[&str]) -> Self {
        self.walls.push(marks.iter().map(|&mark| mark.to_owned()).collect());
        self
    }

    fn wall_of(&self, at: usize, marks: &[String]) -> Line {
        let column = |mark: &String| self.columns.iter().position(|known| known == mark).unwrap();
        Line {
            name: ["A", "B", "C"][at].to_owned(),
            kind: LineKind::Wall,
            columns: marks.iter().map(column).collect(),
            spacing: vec![Length::from_nm(6_000_000_000); marks.len() - 1],
            accept: None,
            found: false,
        }
    }

    /// Adds an instrument.
    pub(in crate::levels) fn instrument(mut self, instrument: Instrument) -> Self {
        self.readings.instruments.push(instrument);
        self
    }

    /// Changes what is known of a setup.
    pub(in crate::levels) fn set(mut self, setup: &str, change: impl FnOnce(&mut Setup)) -> Self {
        let at = self.set_up(setup);
        change(&mut self.readings.setups[at]);
        self
    }

    /// Adds rows of a level book: setup, kind of sight (a dash where none is marked), point and reading each.
    pub(in crate::levels) fn page(self, rows: &str) -> Self {
        rows.lines().filter(|row| !row.trim().is_empty()).fold(self, |notes, row| {
            let cells: Vec<&str> = row.split_whitespace().collect();
            let mut notes = notes.sight(cells[0], cells[2], cells[3]);
            let kinds = [SightKind::Back, SightKind::Fore];
            if let Some(kind) = kinds.into_iter().find(|kind| kind.short() == cells[1]) {
                notes.readings.sights.last_mut().unwrap().kind = kind;
            }
            notes
        })
    }

    /// Adds the sights of one setup: a point and a reading each.
    pub(in crate::levels) fn setup(self, setup: &str, sights: &[(&str, &str)]) -> Self {
        sights.iter().fold(self, |notes, (point, reading)| notes.sight(setup, point, reading))
    }

    /// Names a point that has no reading of its own.
    pub(in crate::levels) fn named(mut self, point: &str) -> Self {
        self.point(point);
        self
    }

    /// Adds a sight on a spot of a column that was named before: `rod 2`, or any other word for a place on its pad.
    pub(in crate::levels) fn spot(self, setup: &str, mark: &str, word: &str, reading: &str) -> Self {
        let column = self.columns.iter().position(|known| known == mark).unwrap();
        let name = format!("{mark} {word}");
        let mut notes = self.sight(setup, &name, reading);
        let point = notes.point(&name);
        if !notes.readings.spots.iter().any(|spot| spot.point == point) {
            let what = match word.strip_prefix("rod ") {
                Some("low") => SpotKind::Rod(RodLabel::Low),
                Some("high") => SpotKind::Rod(RodLabel::High),
                Some(number) => SpotKind::Rod(RodLabel::Number(number.parse().unwrap())),
                None => SpotKind::Place(word.to_owned()),
            };
            notes.readings.spots.push(Spot { point, column, what });
        }
        notes
    }

    pub(in crate::levels) fn columns(mut self, marks: &[&str]) -> Self {
        self.columns = marks.iter().map(|&mark| mark.to_owned()).collect();
        self
    }

    pub(in crate::levels) fn job(&self) -> Job {
        let readings = self.readings.clone();
        let column = |mark: &String| Column {
            mark: mark.clone(),
            base: 0,
            at: self.places.iter().find(|(name, _)| name == mark).map(|(_, at)| *at),
            seat: self.seats.iter().find(|(name, _)| name == mark).map(|(_, seat)| *seat),
            point: readings.points.iter().position(|point| point == mark),
            rods: Vec::new(),
            note: None,
        };
        Job {
            name: "invented".to_owned(),
            units: Units::Inch,
            fraction: 16,
            limits: LimitsInForce { name: String::new(), title: String::new(), tables: Default::default() },
            seat: None,
            bases: Vec::new(),
            concrete: Default::default(),
            columns: self.columns.iter().map(column).collect(),
            lines: self.walls.iter().enumerate().map(|(at, marks)| self.wall_of(at, marks)).collect(),
            shims: ShimSupply { series: None, pieces: Vec::new(), most_pieces: 3, stock: None },
            supplies: Supplies::default(),
            readings,
            rods_plus_minus: Length::ZERO,
            rods_plus_minus_assumed: false,
            measured: Vec::new(),
            files: Vec::new(),
        }
    }

    pub(in crate::levels) fn reduce(self) -> Reduced {
        let job = self.job();
        Reduced { levelled: reduce(&job), points: job.readings.points }
    }
}

fn index(names: &mut Vec<String>, name: &str) -> usize {
    names.iter().position(|known| known == name).unwrap_or_else(|| {
        names.push(name.to_owned());
        names.len() - 1
    })
}

/// Reduced notes that are asked by the names of points.
pub(in crate::levels) struct Reduced {
    pub(in crate::levels) levelled: Levelled,
    points: Vec<String>,
}

impl Reduced {
    pub(in crate::levels) fn point(&self, name: &str) -> usize {
        self.points.iter().position(|known| known == name).unwrap()
    }

    pub(in crate::levels) fn has(&self, name: &str) -> bool {
        self.points.iter().any(|known| known == name)
    }

    /// Gives elevation and +-, in nanometres.
    pub(in crate::levels) fn height(&self, name: &str) -> Option<(i64, i64)> {
        let height = self.levelled.height(self.point(name))?;
        Some((height.elevation.nm(), height.plus_minus.nm()))
    }

    pub(in crate::levels) fn elevation(&self, name: &str) -> Option<i64> {
        self.height(name).map(|(elevation, _)| elevation)
    }

    pub(in crate::levels) fn difference_plus_minus(&self, a: &str, b: &str) -> Option<i64> {
        self.levelled.difference_plus_minus(self.point(a), self.point(b)).map(Length::nm)
    }

    /// Gives each closure as from, to, setups and misclosure in nanometres.
    pub(in crate::levels) fn closures(&self) -> Vec<(&str, &str, usize, i64)> {
        let name = |point: usize| self.points[point].as_str();
        let closures = self.levelled.closures().iter();
        closures.map(|it| (name(it.from), name(it.to), it.setups, it.misclosure.nm())).collect()
    }

    pub(in crate::levels) fn unconnected(&self) -> Vec<&str> {
        self.levelled.unconnected().into_iter().map(|point| self.points[point].as_str()).collect()
    }
}
