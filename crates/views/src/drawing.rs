//! SVG as text, element by element (W3C, Scalable Vector Graphics 1.1): names that people chose as text of XML, and the bars,
//! lines and words of a timetable's picture.

use std::fmt::{Arguments, Write};

/// An SVG picture that is written.
#[derive(Debug)]
pub struct Svg(String);

impl Svg {
    /// A picture that begins so: its first tag and what stands at its head.
    pub fn new(head: Arguments) -> Self {
        let mut svg = Self(String::new());
        svg.add(head);
        svg
    }

    /// An element on a line of its own.
    pub fn add(&mut self, element: Arguments) {
        // Writing to a string does not fail.
        let _ = self.0.write_fmt(element);
        self.0.push('\n');
    }

    /// Text that is escaped.
    pub fn text(&mut self, attributes: Arguments, text: &str) {
        self.add(format_args!("<text {attributes}>{}</text>", Escaped(text)));
    }

    /// The whole picture.
    pub fn finish(mut self) -> String {
        self.0.push_str("</svg>\n");
        self.0
    }
}

/// Text that no name can break out of. Control characters, which XML 1.0 has no place for, become spaces.
pub struct Escaped<'a>(pub &'a str);

impl std::fmt::Display for Escaped<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.chars().try_for_each(|character| match character {
            '&' => f.write_str("&amp;"),
            '<' => f.write_str("&lt;"),
            '>' => f.write_str("&gt;"),
            '"' => f.write_str("&quot;"),
            control if control.is_control() || matches!(control, '\u{fffe}' | '\u{ffff}') => {
                f.write_char(' ')
            }
            other => f.write_char(other),
        })
    }
}

/// A timetable's picture that is drawn. Coordinates are pixels.
#[derive(Debug)]
pub struct Drawing(Svg);

const STYLE: &str = "text{font:11px sans-serif;fill:#111}.heading{font-size:15px;font-weight:bold}\
                     .middle{text-anchor:middle}.white{fill:#fff}.hour{stroke:#bbb}.rule{stroke:#444}\
                     .bar{stroke:#222;stroke-width:.7}";

/// Thin slanted lines: what waits is neither work nor empty.
const HATCH: &str = "<pattern id=\"waiting\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" \
                     patternTransform=\"rotate(45)\"><rect width=\"6\" height=\"6\" fill=\"#fff\"/>\
                     <rect width=\"1.2\" height=\"6\" fill=\"#ccc\"/></pattern>";

impl Drawing {
    /// A white sheet.
    pub fn new(width: i64, height: i64) -> Self {
        Self(Svg::new(format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
             viewBox=\"0 0 {width} {height}\">\n<style>{STYLE}</style>\n<defs>{HATCH}</defs>\n\
             <rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>"
        )))
    }

    pub fn heading(&mut self, x: i64, y: i64, text: &str) {
        self.0.text(format_args!("class=\"heading\" x=\"{x}\" y=\"{y}\""), text);
    }

    pub fn text(&mut self, x: i64, y: i64, text: &str) {
        self.0.text(format_args!("x=\"{x}\" y=\"{y}\""), text);
    }

    pub fn centred(&mut self, x: i64, y: i64, text: &str) {
        self.0.text(format_args!("class=\"middle\" x=\"{x}\" y=\"{y}\""), text);
    }

    /// What is written on a bar that begins at `x`.
    pub fn on_bar(&mut self, x: i64, y: i64, text: &str, is_white: bool) {
        let class = if is_white { "class=\"white\" " } else { "" };
        if !text.is_empty() {
            self.0.text(format_args!("{class}x=\"{}\" y=\"{y}\"", x + 3), text);
        }
    }

    /// A line of an hour, from `x`, `y` to `x`, `y`.
    pub fn line(&mut self, ends: [i64; 4]) {
        self.stroke("hour", ends);
    }

    /// A line between groups of lanes.
    pub fn rule(&mut self, ends: [i64; 4]) {
        self.stroke("rule", ends);
    }

    /// A bar at `x`, `y` of a width and a height, with what a pointer on it shows.
    pub fn rect(&mut self, place: [i64; 4], fill: &str, title: &str) {
        let [x, y, width, height] = place;
        self.0.add(format_args!(
            "<rect class=\"bar\" x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" fill=\"{fill}\">\
             <title>{}</title></rect>",
            Escaped(title)
        ));
    }

    /// A bar of something that waits.
    pub fn hatched(&mut self, place: [i64; 4], title: &str) {
        self.rect(place, "url(#waiting)", title);
    }

    /// The picture as text.
    pub fn finish(self) -> String {
        self.0.finish()
    }

    fn stroke(&mut self, class: &str, [x, y, to_x, to_y]: [i64; 4]) {
        self.0
            .add(format_args!("<line class=\"{class}\" x1=\"{x}\" y1=\"{y}\" x2=\"{to_x}\" y2=\"{to_y}\"/>"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_name_breaks_out_of_its_text() {
        let mut svg = Svg::new(format_args!("<svg>"));
        svg.text(format_args!("x=\"1\""), "</text> & \"rye\"\u{7}");
        let text = "<svg>\n<text x=\"1\">&lt;/text&gt; &amp; &quot;rye&quot; </text>\n</svg>\n";
        assert_eq!(svg.finish(), text);
    }
}
