//! From a rig to its rest, or to the reason why there is no number.

use super::input::BadInput;
use crate::statics::{Equilibrium, Rig, RigError, Settings, Status, solve};

/// The rig at rest.
///
/// # Errors
/// [`BadInput::NoBalance`] if the engine found none; [`BadInput::Unheld`] if nothing holds a load.
pub(super) fn at_rest(rig: &Rig) -> Result<Equilibrium, BadInput> {
    match solve(rig, &Settings::default()).status {
        Status::Balanced(rest) => Ok(rest),
        Status::NotConverged => Err(BadInput::NoBalance),
        Status::Unheld(points) => Err(BadInput::Unheld(points)),
    }
}

impl From<RigError> for BadInput {
    fn from(error: RigError) -> Self {
        BadInput::Rig(Box::new(error))
    }
}
