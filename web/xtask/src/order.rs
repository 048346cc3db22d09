//! The functions of a module in an order that compresses: those that are alike stand together, and of
//! those that are the same one is left.
//!
//! A page's host compresses with a window of 32 kB, of a module of 400 kB and more. The linker puts
//! functions where they were compiled and the generator of bindings by their size; what is alike lies
//! far apart. What was tried beside it, and made the download larger, is in `web/COSTS.md`.

use std::collections::HashMap;
use std::convert::Infallible;

use anyhow::{Context, Result, anyhow};
use wasm_encoder::reencode::{Error, Reencode};
use wasm_encoder::{CodeSection, FunctionSection, Module};
use wasmparser::{CodeSectionReader, FunctionSectionReader, Parser, Payload, TypeRef};

/// Bytes of code that are compared at a time.
const PIECE: usize = 6;
/// A piece that so many functions have tells nothing.
const COMMON: usize = 60;
/// How much the last functions count for what stands next, the very last first: about as many as the
/// window holds, since what is far costs more bits.
const WEIGHTS: [u32; 60] = {
    let mut weights = [0; 60];
    let mut i = 0;
    while i < weights.len() {
        weights[i] = 10_000 / (10 + 3 * i as u32);
        i += 1;
    }
    weights
};
/// Bytes that are added to the length of a function: short ones are alike by chance.
const SHORT: u64 = 30;

/// The module with its functions in that order.
///
/// # Errors
/// When it cannot be read.
pub fn ordered(wasm: &[u8]) -> Result<Vec<u8>> {
    let mut made = once(wasm)?;
    loop {
        // Those that differed only in which of two same ones they call are the same now.
        let next = once(&made)?;
        if Functions::read(&next)?.own.len() == Functions::read(&made)?.own.len() {
            return Ok(made);
        }
        made = next;
    }
}

fn once(wasm: &[u8]) -> Result<Vec<u8>> {
    let functions = Functions::read(wasm)?;
    let mut order = Order::of(&functions);
    let mut module = Module::new();
    let made = order.parse_core_module(&mut module, Parser::new(0), wasm);
    made.map_err(|error| anyhow!("the functions of a module cannot be put in order: {error}"))?;
    Ok(module.finish())
}

/// What is known of the functions of a module.
struct Functions<'a> {
    imported: usize,
    /// Type and body of each that is not imported.
    own: Vec<(u32, &'a [u8])>,
}

impl<'a> Functions<'a> {
    fn read(wasm: &'a [u8]) -> Result<Self> {
        let (mut imported, mut types, mut bodies) = (0, Vec::new(), Vec::new());
        for payload in Parser::new(0).parse_all(wasm) {
            match payload.context("the module cannot be read")? {
                Payload::ImportSection(section) => {
                    for import in section.into_imports() {
                        let function = matches!(import?.ty, TypeRef::Func(_));
                        imported += usize::from(function);
                    }
                }
                Payload::FunctionSection(section) => {
                    for kind in section {
                        types.push(kind?);
                    }
                }
                Payload::CodeSectionEntry(body) => bodies.push(body.as_bytes()),
                _ => {}
            }
        }
        let own = types.into_iter().zip(bodies).collect();
        Ok(Self { imported, own })
    }

    /// For each the first that is the same.
    fn first_alike(&self) -> Vec<usize> {
        let mut known = HashMap::new();
        let each = self.own.iter().enumerate();
        each.map(|(i, own)| *known.entry(own).or_insert(i))
            .collect()
    }

    /// For each the lists of those that share a piece with it.
    fn alike(&self, kept: &[usize]) -> Vec<Vec<usize>> {
        let mut numbers: HashMap<&[u8], usize> = HashMap::new();
        let mut who: Vec<Vec<usize>> = Vec::new();
        let mut pieces = vec![Vec::new(); self.own.len()];
        for &i in kept {
            for piece in self.own[i].1.windows(PIECE) {
                let number = *numbers.entry(piece).or_insert(who.len());
                if number == who.len() {
                    who.push(Vec::new());
                }
                if who[number].last() != Some(&i) {
                    who[number].push(i);
                    pieces[i].push(number);
                }
            }
        }
        let telling = |list: &Vec<usize>| (2..COMMON).contains(&list.len());
        let shared = |list: &Vec<usize>| -> Vec<usize> {
            let lists = list.iter().map(|&number| &who[number]);
            lists.filter(|l| telling(l)).flatten().copied().collect()
        };
        pieces.iter().map(shared).collect()
    }

    /// Those that are kept, each followed by the one that has most in common with the last few.
    fn order(&self, kept: &[usize]) -> Vec<usize> {
        let alike = self.alike(kept);
        let mut left: Vec<bool> = vec![false; self.own.len()];
        for &i in kept {
            left[i] = true;
        }
        let mut longest = kept.to_vec();
        longest.sort_by_key(|&i| std::cmp::Reverse(self.own[i].1.len()));
        let mut longest = longest.into_iter();
        let mut order: Vec<usize> = Vec::new();
        let mut points = vec![0_u32; self.own.len()];
        while order.len() < kept.len() {
            let mut met = Vec::new();
            for (last, weight) in order.iter().rev().zip(WEIGHTS) {
                for &i in alike[*last].iter().filter(|i| left[**i]) {
                    if points[i] == 0 {
                        met.push(i);
                    }
                    points[i] += weight;
                }
            }
            // Points a byte, compared without dividing; of equals the first.
            let length = |i: usize| self.own[i].1.len() as u64 + SHORT;
            let better = |a: usize, b: usize| {
                let a_more = u64::from(points[a]) * length(b);
                let b_more = u64::from(points[b]) * length(a);
                a_more > b_more || (a_more == b_more && a < b)
            };
            let best =
                (met.iter().copied()).reduce(|best, i| if better(i, best) { i } else { best });
            let Some(next) = best.or_else(|| longest.by_ref().find(|&i| left[i])) else {
                break;
            };
            left[next] = false;
            order.push(next);
            for i in met {
                points[i] = 0;
            }
        }
        order
    }
}

/// Puts functions into another order.
struct Order {
    imported: usize,
    /// Which of those that are not imported stands at each place.
    order: Vec<usize>,
    /// The new place of each.
    place: Vec<usize>,
}

impl Order {
    fn of(functions: &Functions) -> Self {
        let first = functions.first_alike();
        let kept: Vec<usize> = (0..first.len()).filter(|&i| first[i] == i).collect();
        let order = functions.order(&kept);
        let mut place = vec![0; first.len()];
        for (to, &from) in order.iter().enumerate() {
            place[from] = to;
        }
        for (i, &same) in first.iter().enumerate() {
            place[i] = place[same];
        }
        Self {
            imported: functions.imported,
            order,
            place,
        }
    }
}

impl Reencode for Order {
    type Error = Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Error<Infallible>> {
        let own = (function as usize).checked_sub(self.imported);
        Ok(own.map_or(function, |own| (self.imported + self.place[own]) as u32))
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        section: FunctionSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        let types = section.into_iter().collect::<Result<Vec<u32>, _>>()?;
        for &from in &self.order {
            functions.function(types[from]);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        code: &mut CodeSection,
        section: CodeSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        let bodies = section.into_iter().collect::<Result<Vec<_>, _>>()?;
        for from in self.order.clone() {
            self.parse_function_body(code, bodies[from].clone())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_encoder::{
        CodeSection, ElementSection, Elements, EntityType, ExportKind, ExportSection, Function,
        FunctionSection, ImportSection, Instruction, Module, RefType, TableSection, TableType,
        TypeSection, ValType,
    };

    /// Functions that return their number or call another, one of them twice, exported and in a table.
    fn module() -> Vec<u8> {
        let far = 123_456_789_000;
        module_of([
            number(far + 1),
            vec![Instruction::Call(3)],
            number(far + 2),
            vec![Instruction::Call(0)],
            number(far + 1),
            vec![Instruction::Call(5)],
        ])
    }

    fn number(n: i64) -> Vec<Instruction<'static>> {
        let mut body = vec![Instruction::I64Const(n)];
        body.extend(std::iter::repeat_n(Instruction::I64Const(n), 3));
        body.extend(std::iter::repeat_n(Instruction::I64Add, 3));
        body
    }

    fn module_of(bodies: [Vec<Instruction<'static>>; 6]) -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], [ValType::I64]);
        let mut imports = ImportSection::new();
        imports.import("a", "b", EntityType::Function(0));
        let (mut functions, mut code) = (FunctionSection::new(), CodeSection::new());
        for body in bodies {
            functions.function(0);
            let mut function = Function::new([]);
            for instruction in &body {
                function.instruction(instruction);
            }
            function.instruction(&Instruction::End);
            code.function(&function);
        }
        let mut exports = ExportSection::new();
        for (name, index) in [("one", 1), ("calls", 2), ("again", 5), ("six", 6)] {
            exports.export(name, ExportKind::Func, index);
        }
        let mut tables = TableSection::new();
        tables.table(TableType {
            element_type: RefType::FUNCREF,
            table64: false,
            minimum: 2,
            maximum: None,
            shared: false,
        });
        let mut elements = ElementSection::new();
        let at = wasm_encoder::ConstExpr::i32_const(0);
        elements.active(None, &at, Elements::Functions([5, 3][..].into()));
        let mut module = Module::new();
        module.section(&types).section(&imports).section(&functions);
        module.section(&tables).section(&exports).section(&elements);
        module.section(&code);
        module.finish()
    }

    /// The functions by what names them: body of each export, with the body of what it calls.
    fn named(wasm: &[u8]) -> Vec<(String, Vec<u8>)> {
        let functions = Functions::read(wasm).unwrap();
        let mut named = Vec::new();
        let body = |index: u32| functions.own[index as usize - functions.imported].1;
        let follow = |index: u32| -> Vec<u8> {
            let mut index = index;
            // No locals, and a call.
            while let [0, 0x10, callee, 0x0b] = *body(index) {
                if usize::from(callee) < functions.imported {
                    break;
                }
                index = callee.into();
            }
            body(index).to_vec()
        };
        for payload in Parser::new(0).parse_all(wasm) {
            match payload.unwrap() {
                Payload::ExportSection(section) => {
                    for export in section {
                        let export = export.unwrap();
                        named.push((export.name.to_owned(), follow(export.index)));
                    }
                }
                Payload::ElementSection(section) => {
                    for element in section {
                        let wasmparser::ElementItems::Functions(items) = element.unwrap().items
                        else {
                            panic!("functions");
                        };
                        for item in items {
                            named.push(("table".to_owned(), follow(item.unwrap())));
                        }
                    }
                }
                _ => {}
            }
        }
        named
    }

    #[test]
    fn whoever_is_called_is_still_called_and_the_same_is_there_once() {
        let before = module();
        let after = ordered(&before).unwrap();
        wasmparser::Validator::new().validate_all(&after).unwrap();
        assert_eq!(named(&after), named(&before));
        let count = |wasm: &[u8]| Functions::read(wasm).unwrap().own.len();
        assert_eq!((count(&before), count(&after)), (6, 5));
        assert_eq!(ordered(&before).unwrap(), after);
        assert!(ordered(&before[..before.len() - 3]).is_err());
    }

    #[test]
    fn callers_of_the_same_are_the_same() {
        let before = module_of([
            number(1),
            vec![Instruction::Call(1)],
            number(2),
            vec![Instruction::Call(5)],
            number(1),
            vec![Instruction::Call(4)],
        ]);
        let after = ordered(&before).unwrap();
        wasmparser::Validator::new().validate_all(&after).unwrap();
        assert_eq!(named(&after), named(&before));
        // Two numbers, who calls the first of them, and who calls that one.
        assert_eq!(Functions::read(&after).unwrap().own.len(), 4);
    }

    /// The two long ones stand side by side, though others lay between.
    #[test]
    fn what_is_alike_stands_together() {
        let after = ordered(&module()).unwrap();
        let functions = Functions::read(&after).unwrap();
        let long: Vec<usize> = (0..functions.own.len())
            .filter(|&i| functions.own[i].1.len() > 10)
            .collect();
        assert_eq!(long, [0, 1]);
    }
}
