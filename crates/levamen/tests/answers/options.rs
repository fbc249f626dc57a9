//! The words of a question, read into its fields. They are sound words: what is miswritten fails the test.

use jiff::civil::Time;
use jiff::tz::TimeZone;
use levamen::quantity::{ClockTime, Duration, Mass, Share, Temperature, Volume};
use levamen::{
    BatchSize, ConversionRequest, ConversionTarget, Error, Extreme, FeedQuestion, InputText, RipenQuestion,
    RipeningTemperature, RipeningTime, RoomWarmth, SizeAmount, TextId, WaterQuestion, WishNames, Wishes,
    ZonedDays, read_clock, read_date, read_duration, read_mass, read_measured_batches, read_ripening,
    read_share, read_temperature, read_temperature_difference, read_time, read_volume,
};
use levamen_views::text::DayPart;

/// The options that stand without a value.
const FLAGS: [&str; 5] = ["json", "as-written", "given-back", "with-old-dough", "skip-wrong"];
/// Words of a question stand in no text.
const NO_TEXT: TextId = TextId(0);

/// The words of a question.
pub struct Options<'a> {
    /// Those that belong to no option.
    pub names: Vec<&'a str>,
    given: Vec<(&'a str, &'a str)>,
}

impl<'a> Options<'a> {
    pub fn read(words: &[&'a str]) -> Self {
        let mut options = Self { names: Vec::new(), given: Vec::new() };
        let mut words = words.iter().copied();
        while let Some(word) = words.next() {
            match word.strip_prefix("--") {
                Some(flag) if FLAGS.contains(&flag) => options.given.push((flag, "")),
                Some(option) => options.given.push((option, words.next().unwrap())),
                None => options.names.push(word),
            }
        }
        options
    }

    /// The name that the question begins with.
    pub fn name(&self) -> &'a str {
        self.names[0]
    }

    pub fn has(&self, option: &str) -> bool {
        self.get(option).is_some()
    }

    pub fn get(&self, option: &str) -> Option<&'a str> {
        self.given.iter().find(|(own, _)| *own == option).map(|(_, words)| *words)
    }

    fn all(&self, option: &str) -> Vec<String> {
        let found = self.given.iter().filter(|(own, _)| *own == option);
        found.map(|(_, words)| (*words).to_owned()).collect()
    }

    fn own(&self, option: &str) -> Option<String> {
        self.get(option).map(str::to_owned)
    }

    pub fn mass(&self, option: &str) -> Option<Mass> {
        self.get(option).map(mass)
    }

    fn share(&self, option: &str) -> Option<Share> {
        self.get(option).map(|words| read_share(NO_TEXT, words).unwrap())
    }

    fn temperature(&self, option: &str) -> Option<Temperature> {
        self.get(option).map(temperature)
    }

    fn clock(&self, option: &str) -> Option<ClockTime> {
        self.get(option).map(clock)
    }

    pub fn volumes(&self, option: &str) -> Option<Vec<Volume>> {
        let volume = |words: &str| read_volume(NO_TEXT, words).unwrap().0;
        self.get(option).map(|words| words.split(',').map(volume).collect())
    }

    pub fn wishes(&self) -> Wishes {
        let extreme = |name: &str, most| self.own(name).map(|figure| Extreme { figure, most });
        Wishes {
            called: WishNames::default(),
            want: self.all("want"),
            free: self.all("free"),
            extreme: extreme("most", true).or(extreme("least", false)),
        }
    }

    pub fn size(&self) -> BatchSize {
        let pieces = || Some(SizeAmount::Pieces(self.get("pieces")?.parse().unwrap(), self.mass("piece")));
        let ready = || {
            let (stage, have) = self.get("have")?.split_once('=')?;
            Some(SizeAmount::Ready { stage: stage.to_owned(), mass: mass(have) })
        };
        let dough = self.mass("dough").map(SizeAmount::Dough);
        let divided = self.mass("to-divide").map(SizeAmount::ToDivide);
        let flour = self.mass("flour").map(SizeAmount::Flour);
        BatchSize {
            amount: pieces().or(dough).or(divided).or(flour).or_else(ready),
            with_old_dough: self.has("with-old-dough"),
            // An amount of a text is never zero.
            loss: if self.get("losing") == Some("0 %") {
                Some(Share::default())
            } else {
                self.share("losing")
            },
        }
    }

    pub fn ripen(&self) -> RipenQuestion {
        let point = |point: &str| {
            let (when, warmth) = point.trim().split_once(' ').unwrap();
            (clock(when), temperature(warmth.trim()))
        };
        let room = self.get("room").map(|words| words.split(',').map(point).collect());
        RipenQuestion {
            at: self.temperature("at"),
            time: self.get("in").map(duration),
            seed: self.share("seed"),
            yeast: self.share("yeast"),
            room: room.unwrap_or_default(),
            set: self.clock("set"),
            ready: self.clock("ready"),
        }
    }

    pub fn water(&self, measured: Option<InputText>) -> Result<WaterQuestion, Error> {
        let mixer = self.own("mixer").unwrap_or_default();
        let measured = measured.map(|table| Ok::<_, Error>((read_measured_batches(&table)?, mixer)));
        let room = |words: &str| match read_temperature(NO_TEXT, words) {
            Ok((at, ..)) => RoomWarmth::At(at),
            Err(_) => RoomWarmth::Named(words.to_owned()),
        };
        Ok(WaterQuestion {
            dough_at: self.temperature("dough-at"),
            flour: self.temperature("flour"),
            room: self.get("room").map(room),
            time: self.clock("time"),
            pre_ferment: self.temperature("preferment"),
            friction: self
                .get("friction")
                .map(|words| read_temperature_difference(NO_TEXT, words).unwrap().0),
            measured: measured.transpose()?,
            tap: self.temperature("tap"),
            dough: self.mass("dough"),
        })
    }

    pub fn conversion(&self) -> ConversionRequest {
        let mut request = ConversionRequest::new(ConversionTarget::read(self.get("to").unwrap()).unwrap());
        request.stage = self.own("stage");
        request.share = self.share("share");
        request.hydration = self.share("hydration");
        request.seed = self.share("seed");
        request.given_back = self.has("given-back");
        request.culture = self.own("culture");
        request.flours = self.all("flour");
        request.name = self.own("name");
        let (yeast, dose) = self.get("yeast").map_or((None, None), |words| match words.rsplit_once(' ') {
            Some((name, share)) if share.ends_with('%') => (Some(name), read_share(NO_TEXT, share).ok()),
            _ => (Some(words), None),
        });
        (request.yeast, request.dose) = (yeast.map(str::to_owned), dose);
        request.time = self.get("hours").map(|words| {
            let ripens = read_ripening(NO_TEXT, &format!("{} h", words.trim_end_matches('h'))).unwrap();
            RipeningTime { figure: ripens.least_figure.clone(), unit: ripens.unit }
        });
        request.warmth = self.get("at").map(|words| {
            let (_, figure, unit) = read_temperature(NO_TEXT, words).unwrap();
            RipeningTemperature { figure, unit }
        });
        request
    }

    /// The days from `--from` on.
    pub fn days(&self) -> ZonedDays {
        let count = self.get("days").map_or(7, |words| words.parse().unwrap());
        let zone = TimeZone::get(self.get("zone").unwrap_or("Europe/Lisbon")).unwrap();
        ZonedDays::new(read_date(self.get("from").unwrap()).unwrap(), count, zone).unwrap()
    }

    pub fn feed(&self) -> FeedQuestion {
        let times = |words: &str| words.split(',').map(time).collect();
        FeedQuestion {
            days: self.days(),
            culture: self.own("culture"),
            at: time(self.get("at").unwrap_or("04:00")),
            feed_at: self.get("feed-at").map(times),
            kept_at: self.temperature("kept-at"),
            on_hand: self.mass("on-hand"),
        }
    }

    /// The parts of a day; without any, all of them.
    pub fn parts(&self) -> Vec<DayPart> {
        let part = |words: &String| match words.as_str() {
            "made" => DayPart::Made,
            "times" => DayPart::Times,
            "set" => DayPart::Set,
            "cultures" => DayPart::Cultures,
            other => panic!("a day has no part `{other}`"),
        };
        let parts: Vec<DayPart> = self.all("only").iter().map(part).collect();
        if parts.is_empty() { DayPart::ALL.to_vec() } else { parts }
    }
}

fn mass(words: &str) -> Mass {
    read_mass(NO_TEXT, words).unwrap().mass
}

fn temperature(words: &str) -> Temperature {
    read_temperature(NO_TEXT, words).unwrap().0
}

fn duration(words: &str) -> Duration {
    read_duration(NO_TEXT, words).unwrap().0
}

fn clock(words: &str) -> ClockTime {
    read_clock(words).unwrap()
}

fn time(words: &str) -> Time {
    read_time(words).unwrap()
}
