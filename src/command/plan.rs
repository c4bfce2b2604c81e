//! `piecewright plan`: with how few papers a source can be sewn, and how.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use piecewright::backend::svg;
use piecewright::packet::page::Page;
use piecewright::pattern::Wish;
use piecewright::{BlockPlan, Options, Planned};
use serde::Serialize;

use super::arguments::{Format, Plan};
use super::input::{self, Content};
use super::shelf::Folder;
use super::show::{self, Judged};
use super::start::replace;
use super::voice::{Screen, Voice};
use super::{Outcome, Trouble, reason};

/// A plan as one line of JSON.
#[derive(Serialize)]
struct Line<'p> {
    block: &'p str,
    own_papers: Option<u32>,
    wishes: Vec<Weighed>,
    proved: Proved,
    tree: &'p str,
    notation: &'p str,
    plain_would_do: &'p [String],
}

/// What a plan costs by a wish, and at the least could.
#[derive(Serialize)]
struct Weighed {
    wish: &'static str,
    cost: u32,
    at_least: u32,
}

/// What is proved of a plan.
#[derive(Serialize)]
struct Proved {
    papers: bool,
    match_points: bool,
}

/// Plans a source and tells the plan; its faults go to standard error.
pub fn run(asked: &Plan, voice: &mut Voice) -> Result<Outcome, Trouble> {
    if asked.write && input::is_standard(&asked.file) {
        return Err(Trouble::new("a source from standard input cannot be written back")
            .with_help("name its file, or ask for the units alone with `--units`"));
    }
    let input = input::read(&asked.file)?;
    let folder = asked.reading.project.clone().unwrap_or_else(|| input.folder.clone());
    let options = Options { thorough: asked.planning.thorough, ..Options::default() };
    let shelf = Folder::open(&folder)?;
    let (judged, planned) = match input.content {
        Content::Text(text) => {
            let planned = piecewright::plan(&input.name, &text, &shelf, &options);
            let Planned { sources, faults, plans, stuck, written } = planned;
            (Judged { sources, faults, folder }, (plans, stuck, written))
        }
        Content::Unfit(sources, fault) => {
            (Judged { sources, faults: vec![fault], folder }, (Vec::new(), Vec::new(), None))
        }
    };
    let (plans, stuck, written) = planned;
    let shown = show::render(&[judged], &asked.showing, Screen::error(asked.showing.color));
    let outcome = shown.outcome(asked.showing.deny_warnings);
    if let Some(folder) = &asked.figures {
        let figures: Vec<&Page> = plans.iter().map(|plan| &plan.figure).chain(&stuck).collect();
        draw(folder, &figures, voice)?;
    }
    if outcome != Outcome::Fine {
        voice.tell(&shown.text);
        voice.tell(&shown.closing());
        return Ok(outcome);
    }
    let told: String = plans.iter().map(|plan| told(plan, asked)).collect();
    voice.say(&told);
    if asked.write {
        write(asked, written.as_deref(), &input.name, (&shelf, &options), voice)?;
    }
    Ok(outcome)
}

/// Draws figures into a folder, each under the name of its block.
fn draw(folder: &Path, figures: &[&Page], voice: &mut Voice) -> Result<(), Trouble> {
    let fail = |error: &std::io::Error| {
        Trouble::new(format!("the figures cannot be written to `{}`: {}", folder.display(), reason(error)))
    };
    if figures.is_empty() {
        voice.tell("nothing could be planned, so nothing is drawn\n");
        return Ok(());
    }
    fs::create_dir_all(folder).map_err(|error| fail(&error))?;
    for figure in figures {
        let path = folder.join(format!("{}.svg", figure.title));
        fs::write(&path, svg::draw(figure)).map_err(|error| fail(&error))?;
        voice.tell(&format!("drew {}\n", path.display()));
    }
    Ok(())
}

/// Writes the plan into the source, if it compiles there as it is planned.
fn write(
    asked: &Plan,
    written: Option<&str>,
    name: &str,
    (shelf, options): (&Folder, &Options),
    voice: &mut Voice,
) -> Result<(), Trouble> {
    let path = asked.file.display();
    let Some(text) = written else {
        voice.tell(&format!("{path} has no patches: nothing is written\n"));
        return Ok(());
    };
    // Before a source is changed, what it would become is looked through.
    let again = piecewright::plan(name, text, shelf, options);
    if again.plans.is_empty() {
        return Err(Trouble::new(format!(
            "`{path}` would have faults with the plan written into it, and was left alone"
        ))
        .with_help("paste what `--units` tells, and look at its faults with `piecewright check`"));
    }
    replace(&asked.file, text)
        .map_err(|error| Trouble::new(format!("`{path}` cannot be written: {}", reason(&error))))?;
    voice.tell(&format!("wrote {path}\n"));
    Ok(())
}

fn told(plan: &BlockPlan, asked: &Plan) -> String {
    if asked.showing.format == Format::Json {
        let weighed = plan.weighed.iter();
        let line = Line {
            block: &plan.block,
            own_papers: plan.own,
            wishes: weighed.map(|w| Weighed { wish: w.wish.word(), cost: w.cost, at_least: w.least }).collect(),
            proved: Proved { papers: plan.is_proved(Wish::Papers), match_points: plan.is_proved(Wish::MatchPoints) },
            tree: &plan.tree,
            notation: &plan.notation,
            plain_would_do: &plan.proposals,
        };
        // Texts and numbers always make JSON.
        return serde_json::to_string(&line).map(|line| line + "\n").unwrap_or_default();
    }
    if asked.units {
        return plan.notation.clone();
    }
    let papers = plan.cost(Wish::Papers);
    let own = match plan.own {
        Some(own) if own > papers => format!("; the source has {own}"),
        Some(_) => String::from(", as many as the source has"),
        None => String::new(),
    };
    let mut text = format!("block {}: {}{own}\n", plan.block, counted(papers, "paper"));
    for weighed in &plan.weighed {
        let proof = if plan.is_proved(weighed.wish) {
            String::from("proved")
        } else if weighed.is_proved() {
            String::from("none better was found")
        } else {
            format!("not proved: at least {}", weighed.least)
        };
        // Writing to a string cannot fail.
        let _ = writeln!(text, "  {:<13} {:>4} {:<46} {proof}", weighed.wish.word(), weighed.cost, unit(weighed.wish));
    }
    let tree = plan.tree.lines().flat_map(|line| ["  ", line, "\n"]).collect::<String>();
    let proposals: String = plan
        .proposals
        .iter()
        .flat_map(|line| ["  without paper, if you say so, in the place of its patch or unit: ", line, "\n"])
        .collect();
    let standing =
        if plan.stands { "  what stands as drawn is counted as papers, but not weighed within\n" } else { "" };
    text + standing + "\n" + &tree + &proposals + "\n"
}

/// What the cost of a wish is counted in.
const fn unit(wish: Wish) -> &'static str {
    match wish {
        Wish::Papers => "sheets of paper",
        Wish::MatchPoints => "match points to line up",
        Wish::EqualPapers => "different foundations to print",
        Wish::LongSeams => "seams under 1/2 in",
        Wish::Nesting => "match points of two papers that do not nest",
        Wish::DarkerSide => "steps of lightness by which allowances show",
        Wish::TurnSlack => "degrees that pieces lack of 10 to be askew",
    }
}

fn counted(count: u32, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}
