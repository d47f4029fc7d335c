//! The header matches the code: every function with the types of its arguments, every status.

use std::path::Path;

use syn::{FnArg, Item, Pat, ReturnType, Type, Visibility};

fn text(file: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(file);
    std::fs::read_to_string(path).expect("a file of this crate")
}

/// The header without comments, its blanks and line ends single spaces.
fn header() -> String {
    let mut code = String::new();
    let text = text("include/quiltpath.h");
    let mut rest = text.as_str();
    while let Some((before, after)) = rest.split_once("/*") {
        code.push_str(before);
        rest = after.split_once("*/").expect("a closed comment").1;
    }
    code.push_str(rest);
    code.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A type of Rust as C writes it before a name.
fn in_c(ty: &Type) -> String {
    match ty {
        Type::Ptr(pointer) => {
            let target = in_c(&pointer.elem);
            let target = target.trim_end();
            let star = if target.ends_with('*') { "" } else { " " };
            let constant = if pointer.const_token.is_some() {
                "const "
            } else {
                ""
            };
            format!("{constant}{target}{star}*")
        }
        Type::Path(path) => {
            let name = &path.path.segments.last().expect("a name").ident;
            match name.to_string().as_str() {
                "c_char" => "char ",
                "c_void" => "void ",
                "i32" => "int32_t ",
                "usize" => "size_t ",
                "Answer" => "quiltpath_motif ",
                "ReadMotif" => "quiltpath_read_motif ",
                other => panic!("no C type for {other}"),
            }
            .to_owned()
        }
        _ => panic!("a type that C doesn't know"),
    }
}

fn result(output: &ReturnType) -> String {
    match output {
        ReturnType::Default => "void ".to_owned(),
        ReturnType::Type(_, ty) => in_c(ty),
    }
}

fn items() -> Vec<Item> {
    syn::parse_file(&text("src/abi.rs")).expect("Rust").items
}

#[test]
fn every_function_is_declared_as_it_is() {
    let header = header();
    let mut count = 0;
    for item in items() {
        let Item::Fn(function) = item else { continue };
        let signature = &function.sig;
        if !matches!(function.vis, Visibility::Public(_)) {
            assert!(signature.abi.is_none(), "a hidden function with a C ABI");
            continue;
        }
        count += 1;
        assert!(signature.abi.is_some());
        let arguments = signature.inputs.iter().map(|argument| {
            let FnArg::Typed(argument) = argument else {
                panic!("a method")
            };
            let Pat::Ident(name) = &*argument.pat else {
                panic!("a pattern")
            };
            format!("{}{}", in_c(&argument.ty), name.ident)
        });
        let arguments = arguments.collect::<Vec<_>>().join(", ");
        let arguments = if arguments.is_empty() {
            "void".to_owned()
        } else {
            arguments
        };
        let result = result(&signature.output);
        let declared = format!("; {result}{}({arguments});", signature.ident);
        assert!(
            header.contains(&declared),
            "the header lacks{}",
            &declared[1..]
        );
    }
    assert!(count >= 6, "{count} functions");
    // No declaration without a function: each ends with ");", and so does the callback's type.
    assert_eq!(header.matches(");").count(), count + 1);
}

#[test]
fn the_callback_is_declared_as_it_is() {
    let alias = items().into_iter().find_map(|item| match item {
        Item::Type(alias) if alias.ident == "ReadMotif" => Some(*alias.ty),
        _ => None,
    });
    let Some(Type::Path(option)) = alias else {
        panic!("no type ReadMotif")
    };
    let syn::PathArguments::AngleBracketed(inner) = &option.path.segments[0].arguments else {
        panic!("no Option")
    };
    let Some(syn::GenericArgument::Type(Type::BareFn(function))) = inner.args.first() else {
        panic!("no function")
    };
    let arguments = function.inputs.iter().map(|argument| {
        let (name, _) = argument.name.as_ref().expect("a name");
        format!("{}{name}", in_c(&argument.ty))
    });
    let arguments = arguments.collect::<Vec<_>>().join(", ");
    let result = result(&function.output);
    let declared = format!("typedef {result}(*quiltpath_read_motif)({arguments});");
    assert!(header().contains(&declared), "the header lacks {declared}");
}

#[test]
fn every_status_has_its_number() {
    let header = header();
    let mut count = 0;
    for item in items() {
        if let Item::Const(status) = item {
            let syn::Expr::Lit(value) = &*status.expr else {
                panic!("no number")
            };
            let syn::Lit::Int(number) = &value.lit else {
                panic!("no number")
            };
            let defined = format!("#define QUILTPATH_{} {number} ", status.ident);
            assert!(header.contains(&defined), "the header lacks {defined}");
            count += 1;
        }
    }
    assert_eq!(header.matches("#define QUILTPATH_").count(), count + 1);
}
