//! Writes a part of a split module as short as it can be written: without what is
//! only for tools, without types that nothing in it has, and with numbers no longer
//! than they need to be. The linker leaves each number five bytes, since it does
//! not know them yet, and each part has the types of all.

use std::collections::BTreeSet;

use wasm_encoder::reencode::{Error, Reencode};
use wasm_encoder::{Module, TypeSection};
use wasmparser::{CustomSectionReader, Parser, TypeSectionReader};

/// A type has a number that no type of the module has.
#[derive(Debug)]
pub(crate) struct NoSuchType;

impl std::fmt::Display for NoSuchType {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        to.write_str("it names a type it does not have")
    }
}

impl std::error::Error for NoSuchType {}

/// The same module, written short.
pub(crate) fn slim(module: &[u8]) -> Result<Vec<u8>, Error<NoSuchType>> {
    let mut used = Used::default();
    used.parse_core_module(&mut Module::new(), Parser::new(0), module)?;
    let mut slim = Module::new();
    Slimming { types: used.types }.parse_core_module(&mut slim, Parser::new(0), module)?;
    Ok(slim.finish())
}

/// Finds the types that a module uses.
#[derive(Default)]
struct Used {
    types: BTreeSet<u32>,
}

impl Reencode for Used {
    type Error = NoSuchType;

    fn type_index(&mut self, of: u32) -> Result<u32, Error<NoSuchType>> {
        self.types.insert(of);
        Ok(of)
    }

    fn parse_type_section(
        &mut self,
        _: &mut TypeSection,
        _: TypeSectionReader<'_>,
    ) -> Result<(), Error<NoSuchType>> {
        Ok(())
    }
}

/// Writes a module with the types it uses, numbered anew.
struct Slimming {
    types: BTreeSet<u32>,
}

impl Reencode for Slimming {
    type Error = NoSuchType;

    fn type_index(&mut self, of: u32) -> Result<u32, Error<NoSuchType>> {
        let place = self.types.iter().position(|used| *used == of);
        let place = place.and_then(|place| u32::try_from(place).ok());
        place.ok_or(Error::UserError(NoSuchType))
    }

    fn parse_type_section(
        &mut self,
        types: &mut TypeSection,
        all: TypeSectionReader<'_>,
    ) -> Result<(), Error<NoSuchType>> {
        // What comes of Rust are functions, each a group by itself.
        for (number, group) in (0..).zip(all) {
            if self.types.contains(&number) {
                self.parse_recursive_type_group(types.ty(), group?)?;
            }
        }
        Ok(())
    }

    fn parse_custom_section(
        &mut self,
        _: &mut Module,
        _: CustomSectionReader<'_>,
    ) -> Result<(), Error<NoSuchType>> {
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use wasm_encoder::{
        CodeSection, CustomSection, Function, FunctionSection, Module, TypeSection, ValType,
    };

    use super::slim;

    /// A module with a type for each number of parameters, of which one function
    /// has the last.
    fn module(types: u32, custom: bool) -> Vec<u8> {
        let mut kinds = TypeSection::new();
        for number in 0..types {
            let takes = (0..number).map(|_| ValType::I32);
            kinds.ty().function(takes.collect::<Vec<_>>(), []);
        }
        let mut functions = FunctionSection::new();
        functions.function(types - 1);
        let mut code = CodeSection::new();
        let mut body = Function::new([]);
        body.instructions().end();
        code.function(&body);
        let mut module = Module::new();
        module.section(&kinds).section(&functions).section(&code);
        if custom {
            let note = CustomSection {
                name: "note".into(),
                data: [1, 2, 3].as_slice().into(),
            };
            module.section(&note);
        }
        module.finish()
    }

    #[test]
    fn types_nobody_has_and_notes_are_left_out() {
        let short = slim(&module(3, true)).unwrap();
        let mut kinds = TypeSection::new();
        kinds.ty().function([ValType::I32, ValType::I32], []);
        let mut functions = FunctionSection::new();
        functions.function(0);
        let mut code = CodeSection::new();
        let mut body = Function::new([]);
        body.instructions().end();
        code.function(&body);
        let mut by_hand = Module::new();
        by_hand.section(&kinds).section(&functions).section(&code);
        assert_eq!(short, by_hand.finish());
    }

    /// The linker writes the number 1 as `81 80 80 80 00`; a shorter form of the
    /// same is `01` (WebAssembly, binary format, integers).
    #[test]
    fn numbers_are_as_short_as_they_can_be() {
        let long = [
            b"\0asm\x01\0\0\0".as_slice(),
            // A type: a function of nothing that gives an integer.
            b"\x01\x05\x01\x60\0\x01\x7f",
            b"\x03\x02\x01\0",
            // It gives 1.
            b"\x0a\x0a\x01\x08\0\x41\x81\x80\x80\x80\0\x0b",
        ];
        let short = [
            b"\0asm\x01\0\0\0".as_slice(),
            b"\x01\x05\x01\x60\0\x01\x7f",
            b"\x03\x02\x01\0",
            b"\x0a\x06\x01\x04\0\x41\x01\x0b",
        ];
        assert_eq!(slim(&long.concat()).unwrap(), short.concat());
    }

    #[test]
    fn what_is_no_module_is_refused() {
        assert!(slim(b"no module").is_err());
    }
}
