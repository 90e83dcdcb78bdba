/**
 * The log of a function: one JSON record a line, as CloudWatch reads them. Facts only; texts, names
 * and pictures of customers never come here.
 */
import type { Log } from '../src/pipeline/ports.ts';

export const log: Log = {
  info: (event, facts) => {
    console.log(JSON.stringify({ level: 'INFO', event, ...facts }));
  },
  error: (event, facts) => {
    console.error(JSON.stringify({ level: 'ERROR', event, ...facts }));
  },
};
