//! Plans works that were written out as JSON (`levamen day DATE --as work`), to hold the timetable against other
//! schedulers: `cargo run --release -p levamen-views --example plan_work -- 6 FILE...`, with the rounds first.

use std::error::Error;
use std::io::Write;
use std::time::Instant;

use levamen_timetable::{
    Effort, JobId, LagFrom, Minutes, Moment, OpeningHours, PoolNeed, Step, TimeLag, Work, plan,
};
use levamen_views::json::{WorkJson, WorkNeedJson};

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let rounds = arguments.next().ok_or("how many rounds?")?.parse()?;
    let mut out = std::io::stdout();
    for path in arguments {
        let work = read(&serde_json::from_slice(&std::fs::read(&path)?)?)?;
        let begin = Instant::now();
        let effort = Effort { rounds, ..Effort::default() };
        let timetable = plan(&work, effort).map_err(|error| format!("{path}: {error:?}"))?;
        writeln!(
            out,
            "{path}: {} steps, {} left out, {} min late, {} min waiting, at least {} min, {:.2} s",
            work.steps().len(),
            timetable.left_out.len(),
            timetable.waiting.late.count(),
            timetable.waiting.total().count(),
            timetable.bound.count(),
            begin.elapsed().as_secs_f64()
        )?;
    }
    Ok(())
}

fn minutes(count: i64) -> Result<Minutes, Box<dyn Error>> {
    Ok(Minutes::new(u32::try_from(count)?))
}

/// The work of a file. Machines are pools here, since the file knows no difference.
fn read(from: &WorkJson) -> Result<Work, Box<dyn Error>> {
    let mut work = Work::new(Moment::minute(0), Moment::minute(i32::try_from(from.minutes)?));
    let mut pools = Vec::new();
    for resource in &from.resources {
        let pool = work.pool(&resource.name, "place", "places");
        for &(from, until, places) in &resource.open {
            let [from, until] = [from, until].map(|minute| i32::try_from(minute).map(Moment::minute));
            work.open(pool, OpeningHours { from: from?, until: until?, places });
        }
        pools.push(pool);
    }
    let jobs = from.steps.iter().map(|step| step.job + 1).max().unwrap_or(0);
    let jobs: Vec<JobId> = (0..jobs).map(|number| work.job(&format!("job {number}"))).collect();
    let need = |need: &WorkNeedJson| -> Result<PoolNeed, Box<dyn Error>> {
        let pool = *pools.get(need.resource).ok_or("no such resource")?;
        Ok(PoolNeed { pool, places: need.places, after: minutes(need.after)?, length: minutes(need.length)? })
    };
    let mut steps = Vec::new();
    for step in &from.steps {
        let job = *jobs.get(step.job).ok_or("no such job")?;
        let mut own = Step::new(job, &step.name, minutes(step.length)?);
        let in_all = |need: &&WorkNeedJson| step.ways.iter().all(|way| way.contains(need));
        let first = step.ways.first().into_iter().flatten();
        own.needs = first.filter(in_all).map(need).collect::<Result<_, _>>()?;
        for way in &step.ways {
            own.either
                .extend(way.iter().filter(|need| !in_all(need)).map(need).collect::<Result<Vec<_>, _>>()?);
        }
        own = own.release(Moment::minute(i32::try_from(step.release)?));
        if let Some(deadline) = step.deadline {
            own = own.deadline(Moment::minute(i32::try_from(deadline)?));
        }
        steps.push(work.step(own));
    }
    for lag in &from.lags {
        let end = |place: usize| steps.get(place).copied().ok_or("no such step");
        work.time_lag(TimeLag {
            name: "lag".to_owned(),
            after: end(lag.after)?,
            since: LagFrom::Start,
            before: end(lag.before)?,
            least: minutes(lag.least)?,
            most: lag.most.map(minutes).transpose()?,
        });
    }
    Ok(work)
}
