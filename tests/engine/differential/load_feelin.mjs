// Finds the npm package @bpmn-io/feelin: in the folder that DUEWARD_FEELIN names, else among npm's global packages.

import { execSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';

const folders = () => {
  if (process.env.DUEWARD_FEELIN) return [process.env.DUEWARD_FEELIN];
  return [dirname(execSync('npm root -g', { encoding: 'utf8' }).trim())];
};

/** The package's functions, and its `version`. */
export async function loadFeelin() {
  for (const folder of folders()) {
    const found = createRequire(join(folder, 'here.js'));
    try {
      const { version } = JSON.parse(readFileSync(found.resolve('@bpmn-io/feelin/package.json'), 'utf8'));
      return { ...(await import(pathToFileURL(found.resolve('@bpmn-io/feelin')))), version };
    } catch (fault) {
      if (fault.code !== 'MODULE_NOT_FOUND') throw fault;
    }
  }
  console.error('error: the npm package @bpmn-io/feelin is not installed');
  console.error('  help: run `npm install --prefix FOLDER @bpmn-io/feelin`, then set DUEWARD_FEELIN=FOLDER');
  process.exit(1);
}
