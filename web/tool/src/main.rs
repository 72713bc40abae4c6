//! The command that builds and serves the page, and answers from the command line.

use std::env;
use std::error::Error;
use std::io::{self, Write};
use std::process::ExitCode;

use coolpath_core::document::example;
use coolpath_tool::args::{self, Serving, Task};
use coolpath_tool::batch::{self, BatchError, Printed, table};
use coolpath_tool::serve::Server;
use coolpath_tool::workspace::Workspace;
use coolpath_tool::{check, open, page_build, release, schema};
use serde_json::{Value, json};

const WRONG_USAGE: u8 = 2;

fn main() -> ExitCode {
    let task = match args::task(env::args_os().skip(1)) {
        Ok(task) => task,
        Err(error) => {
            // Help and version are asked for and go to standard output.
            let _ = error.print();
            return ExitCode::from(if error.use_stderr() { WRONG_USAGE } else { 0 });
        }
    };
    match carry_out(task) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("coolpath: {error}");
            let batch = error.downcast_ref::<BatchError>();
            if batch.is_some_and(BatchError::is_wrong_usage) {
                ExitCode::from(WRONG_USAGE)
            } else {
                ExitCode::FAILURE
            }
        }
    }
}

/// Whether all that was asked has an answer.
fn carry_out(task: Task) -> Result<bool, Box<dyn Error>> {
    match task {
        Task::Page(serving) => {
            let workspace = Workspace::around_here()?;
            println!("{}", page_build::build(&workspace)?);
            serve(&workspace, &serving)?;
        }
        Task::Draft(serving) => {
            let workspace = Workspace::around_here()?;
            println!("A draft is in {}", page_build::draft(&workspace)?.display());
            serve(&workspace, &serving)?;
        }
        Task::Serve(serving) => serve(&Workspace::around_here()?, &serving)?,
        Task::Build => println!("{}", page_build::build(&Workspace::around_here()?)?),
        Task::Release => println!("{}", release::release(&Workspace::around_here()?)?),
        Task::Schema => print_json(&schema::schema()?)?,
        Task::Example => print_json(&json!(example::design()))?,
        Task::Evaluate(args) => {
            let design = batch::design(&args)?;
            return answered(
                &batch::evaluate::printed(&design).map_err(BatchError::from)?,
                args.csv,
            );
        }
        Task::Size(args) => {
            let design = batch::design(&args.of)?;
            return answered(&batch::size::printed(&design, &args)?, args.of.csv);
        }
        Task::Compare(args) => {
            let design = batch::design(&args.of)?;
            return answered(&batch::compare::printed(&design, &args)?, args.of.csv);
        }
        Task::Card(args) => {
            let design = batch::design(&args.of)?;
            return answered(&batch::card::printed(&design, &args)?, args.of.csv);
        }
        Task::Chances(args) => {
            let design = batch::design(&args.of)?;
            let printed = batch::chances::printed(&design, args.draws, args.seed);
            return answered(&printed.map_err(BatchError::from)?, args.of.csv);
        }
        Task::Check { args, csv } => {
            let found = check::run(&args)?;
            if csv {
                print(&table::csv(&found["windows"], &check::COLUMNS)?)?;
            } else {
                print_json(&found)?;
            }
        }
    }
    Ok(true)
}

fn serve(workspace: &Workspace, serving: &Serving) -> Result<(), Box<dyn Error>> {
    let server = Server::start(workspace.dist(), "/", serving.port())?;
    let url = server.url();
    println!("Coolpath is at {url} (Ctrl-C ends it)");
    if serving.open && !open::in_browser(&url) {
        println!("The browser could not be opened from here: open that address yourself.");
    }
    server.run();
    Ok(())
}

fn answered(printed: &Printed, csv: bool) -> Result<bool, Box<dyn Error>> {
    if csv {
        print(&table::csv(&printed.value, printed.first)?)?;
    } else {
        print_json(&printed.value)?;
    }
    Ok(printed.whole)
}

fn print_json(value: &Value) -> io::Result<()> {
    print(&format!("{value:#}\n"))
}

/// Prints; a reader that has heard enough, such as `head`, is no fault.
fn print(text: &str) -> io::Result<()> {
    match io::stdout().lock().write_all(text.as_bytes()) {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}
