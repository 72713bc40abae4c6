//! What a first visit sees before the program is there: drawn here, by the page's own components.

use coolpath_web::shell::early::{EarlyExample, EarlyQuestion};
use yew::ServerRenderer;

/// The first question, hidden until the loader finds that this is a first visit, and the example's answer
/// for whoever presses its button.
pub fn look() -> std::io::Result<String> {
    let runtime = tokio::runtime::Builder::new_current_thread().build()?;
    let (question, example) = runtime.block_on(async {
        let question = ServerRenderer::<EarlyQuestion>::new().hydratable(false);
        let example = ServerRenderer::<EarlyExample>::new().hydratable(false);
        (question.render().await, example.render().await)
    });
    Ok(format!(
        "<main id=\"first-look\" class=\"first-use\" hidden>{question}</main>\n\
         <template id=\"early-example\">{example}</template>"
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_examples_verdict_stands_in_the_page_before_any_program() {
        let look = look().expect("a look");
        assert!(look.contains("Will the air cool this engine?"), "{look}");
        assert!(look.contains("data-begin=\"example\""), "{look}");
        assert!(look.contains("Too hot"), "{look}");
        assert!(look.contains("Take-off climb, hot day"), "{look}");
        assert!(look.contains("Biggest help"), "{look}");
        assert!(!look.contains("working …"), "odds are worked out");
    }
}
