/** `castoff desk`: the pages for a designer, served to this machine alone until it is stopped. */
import { randomBytes, randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { type Command, textOption, usageFault } from '../command.ts';
import { ownWorker, rootFolder } from '../resources.ts';

export const deskCommand: Command = {
  name: 'desk',
  words: '[FOLDER]',
  about: 'open the desk in a browser: patterns of a folder, their findings, their releases',
  options: {
    port: {
      kind: 'text',
      value: 'NUMBER',
      about: 'the port on this machine; a free one if left out',
    },
  },
  examples: ['castoff desk', 'castoff desk my-patterns --port 8080'],
  async run([word = 'patterns', ...rest], options, terminal) {
    if (rest.length > 0) throw usageFault(deskCommand, 'desk takes one FOLDER');
    const port = Number(textOption(options, 'port') ?? 0);
    if (!Number.isInteger(port) || port < 0 || port > 65_535)
      throw usageFault(deskCommand, 'a port is a number up to 65535');
    const folder = path.resolve(terminal.folder, word);
    if (existsSync(path.join(folder, 'pattern.json')))
      throw new Fault('usage', `${word} is one pattern`, {
        place: folder,
        remedy: 'name the folder in which your patterns lie',
      });
    await mkdir(folder, { recursive: true });
    const [{ openLocalDesk }, { listen }] = await Promise.all([
      import('../../desk/local.ts'),
      import('../../desk/server.ts'),
    ]);
    const now = () => new Date();
    const order = { folder, root: rootFolder, worker: ownWorker(), newId: randomUUID, now };
    const desk = await openLocalDesk(order);
    const secret = () => randomBytes(24).toString('base64url');
    const open = await listen(desk, { key: secret(), session: secret() }, port);
    terminal.out(`The desk is open. The address is good for one visit:\n\n  ${open.address}\n`);
    terminal.out(`Patterns lie in ${folder}. Stop with Ctrl-C.`);
    await stopped(terminal.signal);
    desk.stop();
    await open.close();
    return 0;
  },
};

const stopped = (signal: AbortSignal | undefined): Promise<void> =>
  new Promise((resolve) => {
    if (signal?.aborted) resolve();
    else signal?.addEventListener('abort', () => resolve(), { once: true });
  });
