//! `levamen tub`

use levamen_balance::Batch;
use levamen_ferment::{pick, volume};
use levamen_quantity::Volume;
use levamen_sheets::{Housed, HousedStage, json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, BatchSize, TubArguments};
use crate::failure::Failure;
use crate::{measure, output};

pub fn run(arguments: &Arguments, tub: &TubArguments) -> Result<(), Failure> {
    let (shelf, id) = found(arguments, &tub.name)?;
    let mut balance = shelf.balance(id)?;
    BatchSize { dough: tub.dough.clone(), ..BatchSize::default() }.apply(&mut balance)?;
    let tubs = measure::volumes("--tubs", &tub.tubs)?;
    let housed = housed(&balance.batch(), &tubs)?;
    remind_elsewhere(&shelf, &tub.name);
    if arguments.json {
        print_json(&json::Housed::from(&housed))
    } else {
        output::result(text::housed(&housed).as_bytes())
    }
}

fn housed(batch: &Batch<'_>, tubs: &[Volume]) -> Result<Housed, Failure> {
    let balance = batch.balance();
    let stages: Vec<HousedStage> = balance
        .stages
        .iter()
        .filter(|stage| stage.kind.ferments())
        .filter_map(|stage| {
            let made = batch.mass(&stage.made);
            let volume = volume(&made, stage.hydration.as_ref()?)?;
            let tubs = pick(&volume, tubs)?;
            Some(HousedStage { name: stage.name.clone(), made, volume, tubs })
        })
        .collect();
    if stages.is_empty() {
        return Err(Failure::usage(format!("`{}` has no pre-ferment that needs a tub", balance.dough)));
    }
    Ok(Housed { dough: balance.dough.clone(), stages })
}
