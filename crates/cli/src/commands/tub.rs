//! `levamen tub`

use levamen_balance::Batch;
use levamen_ferment::{pick, room, volume};
use levamen_quantity::Volume;
use levamen_sheets::{Housed, HousedStage};
use levamen_views::{json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, BatchSize, TubArguments};
use crate::cards::Cards;
use crate::failure::Failure;
use crate::{measure, output};

pub fn run(arguments: &Arguments, tub: &TubArguments) -> Result<(), Failure> {
    let (shelf, id) = found(arguments, &tub.name)?;
    let mut balance = shelf.balance(id)?;
    BatchSize { dough: tub.dough.clone(), ..BatchSize::default() }.apply(&mut balance)?;
    let tubs = match &tub.tubs {
        Some(words) => measure::volumes("--tubs", words)?,
        None => Cards::read(&shelf)?.tubs(),
    };
    if tubs.is_empty() {
        return Err(Failure::usage("nothing says which tubs there are")
            .help("write --tubs 5l,10l,20l, or a card `tub` with `volume 20 l`"));
    }
    let housed = housed(&balance.batch(), &tubs)?;
    remind_elsewhere(&shelf, &tub.name);
    if arguments.json {
        print_json(&json::TubPlanJson::from(&housed))
    } else {
        output::result(text::tubs(&housed).as_bytes())
    }
}

fn housed(batch: &Batch<'_>, tubs: &[Volume]) -> Result<Housed, Failure> {
    let balance = batch.balance();
    let mut stages = Vec::new();
    for stage in balance.stages.iter().filter(|stage| stage.kind.ferments()) {
        let made = batch.mass(&stage.made);
        let Some(hydration) = &stage.hydration else { continue };
        let Some(volume) = volume(&made, hydration) else { continue };
        let room = room(hydration);
        let tubs = pick(&volume, room, tubs).ok_or_else(|| {
            Failure::usage(format!("no number of such tubs that can be counted holds `{}`", stage.name))
                .help("name larger tubs, such as --tubs 5l,10l,20l")
        })?;
        stages.push(HousedStage { name: stage.name.clone(), made, volume, room, tubs });
    }
    if stages.is_empty() {
        return Err(Failure::usage(format!("`{}` has no pre-ferment that needs a tub", balance.dough)));
    }
    Ok(Housed { dough: balance.dough.clone(), stages })
}
