//! Components whose kind is told only when the program runs. Yew makes its glue anew for each kind of component, some
//! two kilobytes of program; here it is made once for all of them. It stands on `FunctionComponent`, which Yew keeps
//! out of its documentation and may change: `tests/part.rs` holds what is expected of it.

use std::any::{Any, TypeId};
use std::rc::Rc;
use yew::functional::{FunctionComponent, FunctionProvider, HookContext};
use yew::html::BaseComponent;
use yew::prelude::*;
use yew::virtual_dom::{VList, VNode};

/// A component with what it is given.
trait Given {
    fn kind(&self) -> TypeId;
    fn draw(&self, hooks: &mut HookContext) -> HtmlResult;
    fn is_same(&self, other: &dyn Given) -> bool;
    fn as_any(&self) -> &dyn Any;
}

struct Of<C: FunctionProvider> {
    properties: C::Properties,
}

impl<C: FunctionProvider + 'static> Given for Of<C> {
    fn kind(&self) -> TypeId {
        TypeId::of::<C>()
    }

    fn draw(&self, hooks: &mut HookContext) -> HtmlResult {
        C::run(hooks, &self.properties)
    }

    fn is_same(&self, other: &dyn Given) -> bool {
        let other = other.as_any().downcast_ref::<Self>();
        other.is_some_and(|other| self.properties == other.properties)
    }

    fn as_any(&self) -> &dyn Any {
        self
    }
}

/// Any component.
#[derive(Properties, Clone)]
struct Anything {
    given: Rc<dyn Given>,
}

impl PartialEq for Anything {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.given, &other.given) || self.given.is_same(&*other.given)
    }
}

/// The one component that Yew knows.
struct Part {
    drawn: FunctionComponent<Self>,
    /// How many kinds it has been: another kind takes over nothing of the one before.
    kinds: u64,
}

impl FunctionProvider for Part {
    type Properties = Anything;

    fn run(hooks: &mut HookContext, properties: &Anything) -> HtmlResult {
        properties.given.draw(hooks)
    }
}

impl BaseComponent for Part {
    type Message = ();
    type Properties = Anything;

    fn create(context: &Context<Self>) -> Self {
        Self {
            drawn: FunctionComponent::new(context),
            kinds: 0,
        }
    }

    fn update(&mut self, _context: &Context<Self>, (): ()) -> bool {
        true
    }

    fn changed(&mut self, context: &Context<Self>, before: &Anything) -> bool {
        if context.props().given.kind() != before.given.kind() {
            self.drawn.destroy();
            self.drawn = FunctionComponent::new(context);
            self.kinds += 1;
        }
        true
    }

    fn view(&self, context: &Context<Self>) -> HtmlResult {
        let drawn = self.drawn.render(context.props())?;
        let of_this_kind = VList::with_children(vec![drawn], Some(self.kinds.into()));
        Ok(VList::with_children(vec![of_this_kind.into()], None).into())
    }

    fn rendered(&mut self, _context: &Context<Self>, _is_first: bool) {
        self.drawn.rendered();
    }

    fn destroy(&mut self, _context: &Context<Self>) {
        self.drawn.destroy();
    }

    fn prepare_state(&self) -> Option<String> {
        self.drawn.prepare_state()
    }
}

/// A component with its properties. [`part!`](crate::part) reads better.
pub fn part<C: FunctionProvider + 'static>(properties: C::Properties) -> Html {
    any(Rc::new(Of::<C> { properties }))
}

fn any(given: Rc<dyn Given>) -> Html {
    VNode::from(yew::virtual_dom::VComp::new::<Part>(
        Rc::new(Anything { given }),
        None,
    ))
}

/// A component by its name, with its properties in braces as [`yew::props`] takes them.
#[macro_export]
macro_rules! part {
    ($name:ident) => {
        part!($name {})
    };
    ($name:ident { $($properties:tt)* }) => {
        $crate::kit::part::part::<$name>(
            ::yew::props!(<$name as ::yew::html::BaseComponent>::Properties { $($properties)* }),
        )
    };
}
