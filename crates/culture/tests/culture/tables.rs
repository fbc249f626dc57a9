//! Tables of needs: what is read, and what is said of what cannot be.

use levamen_culture::read_needs;
use levamen_language::TextId;

use crate::refusals::told;

#[test]
fn rows_are_read_by_the_names_of_their_columns() {
    let text = "\u{feff}Grams,date,Culture,for,TIME\r\n640,2026-12-01,liquid culture,country loaf,04:30\r\n\r\n\
                0.5,2026-12-02,,,\n0,2026-12-03,liquid culture,,\n";
    let rows = read_needs(TextId(0), text).unwrap();
    let told: Vec<String> = rows
        .iter()
        .map(|row| {
            let time = row.time.map(|time| time.to_string()).unwrap_or_default();
            let culture =
                row.culture.as_ref().map(|(name, place)| format!("{name} = {}", place.span.of(text)));
            format!(
                "{} {time} {} {} [{}]",
                row.date,
                row.mass.grams(),
                culture.unwrap_or_default(),
                row.place.span.of(text)
            )
        })
        .collect();
    assert_eq!(
        told,
        ["2026-12-01 04:30:00 640 liquid culture = liquid culture [640]", "2026-12-02  0.5  [0.5]"]
    );
}

#[test]
fn what_cannot_be_read_is_told_line_by_line() {
    let rows = "date,culture,grams,time\n2026-02-30,a,1,\n1.12.2026,a,1,\n,a,1,\n2026-12-01,a,1,25:00\n\
                2026-12-01,a,1,four\n2026-12-01,a,,\n2026-12-01,a,640 g,\n2026-12-01,a,\"640,5\",\n\
                2026-12-01,a,640,5,04:00\n2026-12-01,a,-3,\n2026-12-01,a,1e5,\n2026-12-01,a,lots,\n\
                2026-12-01,\"a\",\"1'000\",\n2026-12-01,a,NaN,\n";
    let mut told_all = Vec::new();
    for text in [
        rows,
        "",
        "date,grams\n",
        "date;culture;grams\n",
        "date,culture\n2026-12-01,a\n",
        "date,grams,Date\n",
    ] {
        for problem in read_needs(TextId(0), text).unwrap_err() {
            let at = problem.primary.as_ref().map(|label| label.place.span.of(text).to_owned());
            told_all.push(format!("{}\n  at: {}", told(&problem), at.unwrap_or_default()));
        }
    }
    insta::assert_snapshot!(told_all.join("\n\n"));
}

#[test]
fn an_endless_table_is_not_read() {
    let text = "date,grams\n".to_owned() + &"2026-12-01,1\n".repeat(10_001);
    let problems = read_needs(TextId(0), &text).unwrap_err();
    assert_eq!(problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), ["too-many-rows"]);
}
