//! `dewmargin packet FILE -o DIR`

use super::arguments::{PacketOptions, style};
use super::output::{out, write_file};
use super::reading::read_project;
use crate::check::plan_review::{Paper as Lettering, plan_review};
use crate::error::Error;
use crate::report::packet::{Contents, Form, Paper, sheets};
use crate::report::{judge_all, judge_details};

pub(super) fn run(options: &PacketOptions) -> Result<u8, Error> {
    let project = read_project(&options.file)?;
    let style = style(options.units, &project);
    let judged = judge_all(&project);
    let details = judge_details(&project);
    let missing = plan_review(&project, &Lettering::ANY);
    let contents = Contents {
        project: &project,
        judged: &judged,
        details: &details,
        missing: &missing,
        left_out: &[],
    };
    let form = Form {
        paper: options.paper.map_or(Paper::usual(style.units), Paper::from),
        style,
    };
    for sheet in sheets(&contents, form) {
        let name = format!("{}.svg", sheet.number);
        write_file(&options.output.join(&name), &sheet.drawing.svg())?;
        out(&format!("{name}: {} {}\n", sheet.title, sheet.scale))?;
    }
    Ok(0)
}
