//! Stress and shear areas of a thread by the formulas of FED-STD-H28/2B, Table II.B.1: numbers for the engineer.
#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "an area is a worked-out figure, not a length that is compared"
)]

use std::f64::consts::{FRAC_PI_4, PI};

/// Which profile a thread has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Profile {
    /// Unified inch threads.
    Unified,
    /// ISO metric threads.
    Metric,
}

/// A thread: all of it in one unit of length, areas in that unit squared.
///
/// # Source
/// FED-STD-H28/2B (1991), Table II.B.1, form numbers as cited by the `screw_thread_lib` package; the standard itself
/// was not opened. Decimals of the standard are written out: 0.57735 is 1 / sqrt 3, 0.9743 is 9 sqrt 3 / 16.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreadForm {
    /// Its profile.
    pub profile: Profile,
    /// The basic major diameter.
    pub diameter: f64,
    /// The pitch.
    pub pitch: f64,
    /// The least major diameter of the rod.
    pub rod_major: f64,
    /// The least pitch diameter of the rod.
    pub rod_pitch: f64,
    /// The most minor diameter of the nut.
    pub nut_minor: f64,
    /// The most pitch diameter of the nut.
    pub nut_pitch: f64,
}

impl ThreadForm {
    /// Gives the tensile stress area: form 1b, pi/4 (d - 0.9743 P)^2; for metric threads pi/4 (d - 0.9382 P)^2.
    #[must_use]
    pub fn stress_area(&self) -> f64 {
        let off = match self.profile {
            Profile::Unified => 9.0 * root_3() / 16.0,
            Profile::Metric => 13.0 * root_3() / 24.0,
        };
        FRAC_PI_4 * (self.diameter - off * self.pitch).powi(2)
    }

    /// Gives the basic pitch diameter, d - 3/8 sqrt 3 P.
    #[must_use]
    pub fn pitch_diameter(&self) -> f64 {
        self.diameter - 3.0 / 8.0 * root_3() * self.pitch
    }

    /// Gives the least area in which the rod's thread shears: form 4a.
    #[must_use]
    pub fn rod_shear(&self, engaged: f64) -> f64 {
        let half = self.pitch / 2.0 + (self.rod_pitch - self.nut_minor) / root_3();
        PI * engaged / self.pitch * self.nut_minor * half
    }

    /// Gives the least area in which the nut's thread shears: form 2a.
    #[must_use]
    pub fn nut_shear(&self, engaged: f64) -> f64 {
        let half = self.pitch / 2.0 + (self.rod_major - self.nut_pitch) / root_3();
        PI * engaged / self.pitch * self.rod_major * half
    }

    /// Gives the simplified shear area of the rod's thread: form 5, 5/8 pi d2 LE.
    #[must_use]
    pub fn rod_shear_simple(&self, engaged: f64) -> f64 {
        5.0 / 8.0 * PI * self.pitch_diameter() * engaged
    }

    /// Gives the simplified shear area of the nut's thread: form 3, 3/4 pi d2 LE.
    #[must_use]
    pub fn nut_shear_simple(&self, engaged: f64) -> f64 {
        3.0 / 4.0 * PI * self.pitch_diameter() * engaged
    }

    /// Gives the engagement at which the rod breaks before its thread shears: form 14, 2 As / (ASs per length).
    #[must_use]
    pub fn rod_length(&self) -> f64 {
        2.0 * self.stress_area() / self.rod_shear(1.0)
    }

    /// Gives the engagement at which the rod breaks before the nut's thread shears: form 16,
    /// 2 As UTS of the rod / (ASn per length x UTS of the nut); `strength` is the nut's tensile strength over the
    /// rod's.
    #[must_use]
    pub fn nut_length(&self, strength: f64) -> f64 {
        2.0 * self.stress_area() / (self.nut_shear(1.0) * strength)
    }

    /// Gives the engagement at which the rod breaks before both threads shear together: form 13, 4 As / (pi d2).
    #[must_use]
    pub fn both_length(&self) -> f64 {
        both_length(self.stress_area(), self.pitch_diameter())
    }
}

/// Gives form 13 of a stress area and a basic pitch diameter: 4 As / (pi d2).
#[must_use]
pub fn both_length(stress_area: f64, pitch_diameter: f64) -> f64 {
    4.0 * stress_area / (PI * pitch_diameter)
}

fn root_3() -> f64 {
    3.0_f64.sqrt()
}
