//! The headless program.
//!
//! Exit codes: 0 done, 1 the work failed, 2 the call was wrong. An error is one
//! line on standard error: what, where, what to do.

mod air;
mod crew;
mod desk;
mod export;
mod failure;
mod grain;
mod hub;
mod import;
mod outlook;
mod place;
mod reading;
mod roll_up;
mod safekeeping;
mod stations;
mod stop;

use std::io::{self, Write};
use std::process::ExitCode;

use clap::error::ErrorKind;
use clap::{Parser, Subcommand};

/// Whole-field stages of grain sorghum from the heads that a scout reads.
#[derive(Parser)]
#[command(name = "headwalk", version, max_term_width = 100)]
struct Call {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    RollUp(roll_up::RollUp),
    Outlook(outlook::OutlookCall),
    Import(import::Import),
    Export(export::Export),
    Grain(Box<grain::Grain>),
    Air(air::Air),
    Desk(desk::Desk),
    Hub(hub::Hub),
    Crew(crew::Crew),
    Check(safekeeping::Check),
    Backup(safekeeping::Backup),
    Restore(safekeeping::Restore),
}

fn main() -> ExitCode {
    let call = match Call::try_parse() {
        Ok(call) => call,
        Err(error) => return misread(&error),
    };
    let outcome = match call.command {
        Command::RollUp(call) => call.run(),
        Command::Outlook(call) => call.run(),
        Command::Import(call) => call.run(),
        Command::Export(call) => call.run(),
        Command::Grain(call) => call.run(),
        Command::Air(call) => call.run(),
        Command::Desk(call) => call.run(),
        Command::Hub(call) => call.run(),
        Command::Crew(call) => call.run(),
        Command::Check(call) => call.run(),
        Command::Backup(call) => call.run(),
        Command::Restore(call) => call.run(),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            // A reader that has gone (`| head`) is not a failure of ours.
            if !failure.is_closed_pipe() {
                let _ = writeln!(io::stderr(), "headwalk: {failure}");
            }
            failure.exit_code()
        }
    }
}

/// Help and version as asked for; anything else as one line.
fn misread(error: &clap::Error) -> ExitCode {
    if !error.use_stderr() {
        let _ = error.print();
        return ExitCode::SUCCESS;
    }
    let text = error.render().to_string();
    let line = match error.kind() {
        ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand => "no command given".to_owned(),
        // The first paragraph: a missing argument is named on its second line.
        _ => text
            .lines()
            .take_while(|line| !line.trim().is_empty())
            .map(str::trim)
            .collect::<Vec<_>>()
            .join(" ")
            .trim_start_matches("error: ")
            .to_owned(),
    };
    let _ = writeln!(io::stderr(), "headwalk: {line}; see headwalk --help");
    ExitCode::from(2)
}
