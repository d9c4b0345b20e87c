//! Arguments, printing and exit status; one file a command.

mod args;
mod ask;
mod catalog;
mod check;
mod cut;
mod detail;
mod explain;
mod folder;
mod hardware;
mod level;
mod new;
mod order;
mod planned;
mod print;
mod report;
mod rules;
mod sheet;
mod what_if;

use args::{Cli, Command};
use clap::Parser;
use std::process::ExitCode;

/// Why a command could not answer: told on standard error, exit status 2.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
pub(crate) struct Refusal(String);

/// Runs the program with the arguments of the process.
///
/// # Errors
/// Exit status 0: every column may be set and nothing asks or stops; 1: otherwise;
/// 2: the input or the command is wrong, nothing was written.
#[must_use]
pub fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => {
            let status = if error.use_stderr() { ExitCode::from(2) } else { ExitCode::SUCCESS };
            // nowhere is left to tell that telling failed
            let _ = error.print();
            return status;
        }
    };
    let answered = print::offered(&cli.command).and_then(|()| match &cli.command {
        Command::New(args) => new::run(args),
        Command::Level(args) => level::run(args),
        Command::Check(args) => check::run(args),
        Command::Explain(args) => explain::run(args),
        Command::Ask(args) => ask::run(args),
        Command::Report(args) => report::run(args),
        Command::Hardware(args) => hardware::run(args),
        Command::Sheet(args) => sheet::run(args),
        Command::Order(args) => order::run(args),
        Command::Detail(args) => detail::run(args),
        Command::Rules(args) => rules::run(args),
        Command::Catalog(args) => catalog::run(args),
    });
    match answered {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::from(1),
        Err(refusal) => {
            print::error(&refusal);
            ExitCode::from(2)
        }
    }
}
