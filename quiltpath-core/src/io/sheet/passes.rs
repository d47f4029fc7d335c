//! The passes on the sheet: the window, how the quilt lies, and each run as the machine sees it.

use super::{Page, number, way};
use crate::io::html::safe;
use crate::order::Loading;
use crate::plan::findings::counted;
use crate::plan::{PlannedPass, RunPart};

impl Page<'_> {
    pub(super) fn passes(&mut self) {
        self.out.push_str(
            "<section aria-labelledby=\"the.passes\">\n<h2 id=\"the.passes\">Passes and runs</h2>\n\
             <p>A run is stitched without a thread cut. Its places are those of the machine, \
             across to the right and down from where the window's upper edge meets the quilt's left edge.</p>\n",
        );
        let stitching = self.stitching;
        for (index, pass) in stitching.passes.iter().enumerate() {
            self.pass(index, pass);
        }
        self.out.push_str("</section>\n");
    }

    fn pass(&mut self, index: usize, pass: &PlannedPass) {
        let key = format!("passes.{index}");
        let top = self.length(&format!("{key}.top"), pass.top);
        let window = match self.stitching.throat {
            Some(throat) => {
                let bottom = self.length(&format!("{key}.bottom"), pass.top + throat);
                format!("The window reaches from {top} to {bottom} below the quilt's upper edge.")
            }
            None => format!("All of the quilt is within reach, from {top} down."),
        };
        let loading = match pass.loading {
            Loading::Upright => "loaded upright",
            Loading::Turned => "turned by 90 degrees clockwise and loaded again",
        };
        self.put(format_args!(
            "<section class=\"pass\" aria-labelledby=\"pass.{0}\">\n<h3 id=\"pass.{0}\">Pass {0}, \
             <span data-text=\"{key}.loading\">{1}</span></h3>\n<p>The quilt is {loading}. {window} {2}.</p>\n<ol class=\"runs\">\n",
            index + 1,
            pass.loading.name(),
            counted(pass.runs.len(), "run"),
        ));
        for (run, within) in pass.runs.clone().zip(0..) {
            self.run(pass, run, &format!("{key}.runs.{within}"));
        }
        self.out.push_str("</ol>\n</section>\n");
    }

    fn run(&mut self, pass: &PlannedPass, index: usize, key: &str) {
        let run = &self.stitching.runs[index];
        let [start, end] = [run.motif.start(), run.motif.end()];
        let map = &pass.to_machine;
        let begin = self.place(&format!("{key}.start_on_machine"), map.apply(start.point));
        let finish = self.place(&format!("{key}.end_on_machine"), map.apply(end.point));
        let finish = if run.closed {
            format!("it ends where it starts, at {finish}")
        } else {
            format!("it ends at {finish}")
        };
        let stitches = self.stitching.job.lines[index].count();
        let number_of = number(
            &format!("{key}.number"),
            index + 1,
            &(index + 1).to_string(),
        );
        self.put(format_args!(
            "<li id=\"run.{}\"><b>Run {number_of}</b> starts at {begin} and runs {}; {finish}. {} of line, {} stitches.\n<ol class=\"parts\">\n",
            index + 1,
            way(map.apply_vector(start.direction)),
            self.length(&format!("{key}.length"), run.motif.length()),
            number(&format!("{key}.stitches"), stitches, &stitches.to_string()),
        ));
        for part in &run.parts {
            self.part(part);
        }
        self.out.push_str("</ol>\n</li>\n");
    }

    fn part(&mut self, part: &RunPart) {
        let piece = &self.solved.pieces[part.piece];
        let number = self.numbers[part.piece];
        let [from, to] = part.between.map(|share| (share * 1e6).round() / 1e6);
        let backwards = if part.reversed {
            ", from its end to its start"
        } else {
            ""
        };
        self.put(format_args!(
            "<li data-piece=\"{number}\" data-from=\"{from}\" data-to=\"{to}\"{}><a href=\"#piece.{number}\">{number}</a> {}{}{backwards}</li>\n",
            if part.reversed { " data-reversed" } else { "" },
            safe(&piece.name),
            covered(part, piece.ends.len()),
        ));
    }
}

/// Which part of a piece it is, where it is not all of it.
pub(super) fn covered(part: &RunPart, repeats: usize) -> String {
    let whole = part.between == [0.0, 1.0];
    match part.repeats {
        _ if whole => String::new(),
        Some([first, last]) if first == last => format!(", repeat {first} of {repeats}"),
        Some([first, last]) => format!(", repeats {first} to {last} of {repeats}"),
        None => format!(
            ", from {:.0} % to {:.0} % of its line",
            part.between[0] * 100.0,
            part.between[1] * 100.0
        ),
    }
}
