/**
 * One process of Typst, through its binding for Node: compiles the documents it is told of, writes their
 * files, and tells what that cost since the process began. Its cache is emptied after each document.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const [folder = '', packages = '', fontFolders = '', ...names] = process.argv.slice(2);
const { NodeCompiler } = createRequire(join(packages, 'x.js'))(
  '@myriaddreamin/typst-ts-node-compiler',
);

const cpuMilliseconds = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const compiler = NodeCompiler.create({
  workspace: folder,
  fontArgs: [{ fontPaths: fontFolders.split(',') }],
});
const costs = [];
let pages = 0;
let bytes = 0;
for (const name of names) {
  const mainFileContent = readFileSync(join(folder, `${name}.typ`), 'utf8');
  const compiled = compiler.compile({ mainFileContent });
  if (!compiled.result)
    throw new Error(JSON.stringify(compiled.takeDiagnostics()?.shortDiagnostics));
  const file = compiler.pdf(compiled.result, { creationTimestamp: 0 });
  writeFileSync(join(folder, `${name}.pdf`), file);
  costs.push(cpuMilliseconds());
  pages = compiled.result.numOfPages;
  bytes = file.length;
  compiler.evictCache(0);
}
const peakMegabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ costs, pages, bytes, peakMegabytes }));
