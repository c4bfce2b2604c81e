//! Sheets cut from a roll: as short together as can be found.

use super::core::{Core, Plan};
use super::greedy;
use super::number::Steps;

/// A plan for a roll.
pub(super) fn plan(core: &Core, steps: &mut Steps) -> Plan {
    greedy::plan(core, steps)
}
