/**
 * Logs, metrics and traces of a function, by the AWS Powertools, behind the log port of the pipeline. A log
 * line holds an event and its facts; texts, names and pictures of customers never come here. Outside
 * Lambda nothing is traced.
 */
import { Logger } from '@aws-lambda-powertools/logger';
import { Metrics, MetricUnit } from '@aws-lambda-powertools/metrics';
import { Tracer } from '@aws-lambda-powertools/tracer';
import type { Context } from 'aws-lambda';
import type { Log } from '../src/pipeline/ports.ts';

const serviceName = 'castoff';
const logger = new Logger({ serviceName });
const metrics = new Metrics({ namespace: 'Castoff', serviceName });
const tracer = new Tracer({ serviceName, captureHTTPsRequests: false });

export const log: Log = {
  info: (event, facts) => logger.info(event, facts),
  error: (event, facts) => logger.error(event, facts),
};

/** Adds to a number on the dashboard: `DocumentsMade`. */
export function count(name: string, by = 1): void {
  metrics.addMetric(name, MetricUnit.Count, by);
}

/** The client with every call of it as a part of the trace. */
export const traced = <Client>(client: Client): Client => tracer.captureAWSv3Client(client);

/** One call of a function: its cold start counted, its work a part of the trace, its metrics sent. */
export async function watched<T>(
  name: string,
  context: Partial<Context>,
  work: () => Promise<T>,
): Promise<T> {
  logger.appendKeys({ function: name, request: context.awsRequestId });
  metrics.setFunctionName(name);
  metrics.captureColdStartMetric();
  const segment = tracer.getSegment();
  const part = segment?.addNewSubsegment(`## ${name}`);
  if (part) tracer.setSegment(part);
  tracer.annotateColdStart();
  try {
    return await work();
  } catch (error) {
    // Not the error itself: its words may tell of a pattern.
    part?.addErrorFlag();
    throw error;
  } finally {
    part?.close();
    if (segment) tracer.setSegment(segment);
    if (metrics.hasStoredMetrics()) metrics.publishStoredMetrics();
  }
}
