// Writes the innermost scope of each place that $PLACES lists, one a line: line,
// column, bytes before it, and UTF-16 units before it in its line.
import fs from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(process.env.MODULES + "/");
const oniguruma = require("vscode-oniguruma");
const textmate = require("vscode-textmate");

await oniguruma.loadWASM(fs.readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm")));
const registry = new textmate.Registry({
  onigLib: Promise.resolve({
    createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text) => new oniguruma.OnigString(text),
  }),
  loadGrammar: async () => textmate.parseRawGrammar(fs.readFileSync(process.env.SYNTAX, "utf8"), "grammar.json"),
});
const grammar = await registry.loadGrammar("source.budstick");

let state = textmate.INITIAL;
const lines = fs.readFileSync(process.env.JOURNAL, "utf8").split("\n").map((line) => {
  const told = grammar.tokenizeLine(line, state);
  state = told.ruleStack;
  return told.tokens;
});
const out = fs.readFileSync(process.env.PLACES, "utf8").trimEnd().split("\n").map((place) => {
  const [line, , , column] = place.split(" ").map(Number);
  const token = lines[line - 1].find((t) => t.startIndex <= column && column < t.endIndex);
  return token.scopes.at(-1);
});
fs.writeFileSync(process.env.COLOURS, out.join("\n") + "\n");
