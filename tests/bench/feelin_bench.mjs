// usage: node feelin_bench.mjs QUESTIONS.json
// How long @bpmn-io/feelin takes for the filter and the table of feel_bench.cpp. Prints one JSON object.
//
// Its evaluate() parses each time, so that the expressions are written as functions: those are parsed once, when the
// function is made, and only their bodies run when they are called.

import { readFileSync } from 'node:fs';
import { loadFeelin } from '../engine/differential/load_feelin.mjs';

const { evaluate } = await loadFeelin();
const { filter, exam, rows, questions } = JSON.parse(readFileSync(process.argv[2], 'utf8'));

const compiled = (text) => {
  const { value } = evaluate(text);
  return (argument) => value.invoke([argument]);
};

/** The least nanoseconds a call, of nine batches. */
function nanoseconds(work) {
  const batch = 50e6;
  let calls = 1;
  const run = () => {
    const start = process.hrtime.bigint();
    for (let i = 0; i < calls; ++i) work();
    return Number(process.hrtime.bigint() - start);
  };
  while (run() < batch) calls *= 2;
  let least = run();
  for (let i = 0; i < 8; ++i) least = Math.min(least, run());
  return least / calls;
}

const count = compiled(`function(exam) ${filter}`);

// `not(...)` is a cell's alone: after `in` it is the function.
const membership = (cell) => (cell.startsWith('not(') ? `not(tested in ${cell.slice(3)})` : `tested in (${cell})`);
const tests = rows.map((cells) =>
  cells.map((cell) => (cell === '-' ? null : compiled(`function(tested) ${membership(cell)}`))));

/** The row that matches, as UNIQUE finds it: every row is looked at. */
function match(values) {
  let found = null;
  tests.forEach((cells, row) => {
    if (cells.every((test, i) => test === null || test(values[i]) === true)) found = row + 1;
  });
  return found;
}

let next = 0;
console.log(JSON.stringify({
  count: count(exam),
  filter_ns: nanoseconds(() => count(exam)),
  matches: questions.map(match),
  table_ns: nanoseconds(() => match(questions[next++ % questions.length])),
}));
