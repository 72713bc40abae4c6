//! The command that builds and serves the page, and checks designs on flights.

use std::env;
use std::error::Error;
use std::process::ExitCode;

use coolpath_tool::args::{self, Task};
use coolpath_tool::serve::Server;
use coolpath_tool::workspace::Workspace;
use coolpath_tool::{check, open, page_build};

fn main() -> ExitCode {
    let task = match args::task(env::args_os().skip(1)) {
        Ok(task) => task,
        Err(error) => {
            eprintln!("coolpath: {error}");
            return ExitCode::from(2);
        }
    };
    match carry_out(task) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("coolpath: {error}");
            ExitCode::FAILURE
        }
    }
}

fn carry_out(task: Task) -> Result<(), Box<dyn Error>> {
    match task {
        Task::Help(text) => println!("{text}"),
        Task::Check(args) => println!("{:#}", check::run(&args)?),
        Task::Build => println!("{}", page_build::build(&Workspace::around_here()?)?),
        Task::Serve {
            build_first,
            port,
            open,
        } => {
            let workspace = Workspace::around_here()?;
            if build_first {
                println!("{}", page_build::build(&workspace)?);
            }
            let server = Server::start(workspace.dist(), "/", port)?;
            let url = server.url();
            println!("Coolpath is at {url} (Ctrl-C ends it)");
            if open && !open::in_browser(&url) {
                println!("The browser could not be opened from here: open that address yourself.");
            }
            server.run();
        }
    }
    Ok(())
}
