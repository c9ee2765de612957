// usage: node ask_feelin.mjs feelin_answers.jsonl > feelin_answers.new.jsonl
// Asks the npm package @bpmn-io/feelin what it makes of each line, and writes the lines again with its answers.
//
// The first line holds the package's version and, under `names`, what expressions may speak of. Every other line is a
// question: `about` groups it; `feel` is an expression, or `cell` a table cell that `tested` is tested with; `with` says
// which names may be used; `answer` is feelin's. Where we differ on purpose, `ours` is our answer and `because` says why.

import { readFileSync } from 'node:fs';
import { loadFeelin } from './load_feelin.mjs';

const { evaluate, unaryTest, version } = await loadFeelin();
const [header, ...lines] = readFileSync(process.argv[2], 'utf8').trim().split('\n').map((line) => JSON.parse(line));

function ask({ feel, cell, tested, with: group }) {
  const names = group === undefined ? {} : header.names[group];
  const { value } = cell === undefined ? evaluate(feel, names) : unaryTest(cell, { ...names, '?': tested });
  return value === undefined ? null : value;
}

console.log(JSON.stringify({ ...header, version }));
for (const { answer, ours, because, ...question } of lines) {
  const differing = because === undefined ? {} : { ours, because };
  console.log(JSON.stringify({ ...question, answer: ask(question), ...differing }));
}
