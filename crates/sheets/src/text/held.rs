//! A caution where something that spoils stands warm, in the place where it is made.

use levamen_ferment::{Hazard, spoils, stands_too_long};
use levamen_formula::StageKind;

use crate::sheet::StageSheet;

/// The caution for a stage that is made ahead, does not ferment, and holds egg or dairy for hours.
pub fn caution(stage: &StageSheet) -> Option<&'static str> {
    let rests = matches!(stage.kind, StageKind::Ahead(kind) if !kind.ferments());
    let holds = stage.lines.iter().any(|line| spoils(&line.name));
    let ripens = stage.ripens.as_ref();
    let time = ripens.map(|ripens| ripens.most.as_ref().unwrap_or(&ripens.least));
    let at = ripens.and_then(|ripens| ripens.temperature.as_ref());
    (rests && holds && stands_too_long(time, at)).then(|| Hazard::WarmSoaker.caution().words)
}
