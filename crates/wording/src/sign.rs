//! The safety signs that stand beside a caution.

use quantity::{Named, string_enum};

string_enum! {
    /// A sign of ISO 7010; its name is its number in that register (numbers from memory).
    "safety sign" pub enum SafetySign {
        /// General warning, which goes with its text.
        Warning = "W001",
        /// Electricity.
        Electricity = "W012",
        /// Hot surface.
        HotSurface = "W017",
        /// No thoroughfare: nobody goes nearer.
        NoThoroughfare = "P004",
        /// Read the manual.
        ReadManual = "M002",
        /// Wear eye protection.
        EyeProtection = "M004",
        /// Wear respiratory protection.
        Respirator = "M017",
        /// Disconnect before maintenance.
        Disconnect = "M021",
    }
}

impl SafetySign {
    /// How it is referred to beside its drawing: `ISO 7010 W001`.
    pub fn reference(self) -> String {
        format!("ISO 7010 {}", self.name())
    }
}
