/**
 * The buckets: uploads come in, bundles lie on the shelf, work is handed between steps, releases are kept.
 * All private, encrypted, versioned, TLS only; what may be thrown away has a day on which it is.
 */
import { Duration, RemovalPolicy } from 'aws-cdk-lib';
import type { BucketProps, CfnBucket, IBucket, LifecycleRule } from 'aws-cdk-lib/aws-s3';
import {
  BlockPublicAccess,
  Bucket,
  BucketEncryption,
  HttpMethods,
  ObjectOwnership,
} from 'aws-cdk-lib/aws-s3';
import { Construct } from 'constructs';
import type { BucketName } from './functions.ts';
import { SHARED, sharingWith } from './sharing.ts';

export class Storage extends Construct {
  readonly buckets: Readonly<Record<BucketName, Bucket>>;

  constructor(scope: Construct, id: string) {
    super(scope, id);
    const accessLogs = this.#bucket('AccessLogs', [{ expiration: Duration.days(90) }]);
    this.buckets = {
      uploads: this.#bucket('Uploads', [expiring(30)], accessLogs),
      work: this.#bucket('Work', [expiring(14)], accessLogs),
      releases: this.#bucket('Releases', [KEPT], accessLogs),
      shelf: this.#bucket('Shelf', [KEPT], accessLogs),
    };
    tellEventBridge(this.buckets.uploads);
    tellEventBridge(this.buckets.work);
  }

  /** Where a browser hands files in, and fetches drafts and released files, by signed addresses. */
  get origins(): readonly string[] {
    const { uploads, work, releases } = this.buckets;
    return [uploads, work, releases].map((each) => `https://${each.bucketRegionalDomainName}`);
  }

  /** A page of that origin may fetch what it holds a signed address of: drafts and released files. */
  letFetch(origin: string): void {
    const { allowedOrigins, maxAge } = sharingWith(origin);
    for (const name of SHARED) {
      this.buckets[name].addCorsRule({
        allowedOrigins: [...allowedOrigins],
        allowedMethods: [HttpMethods.GET],
        maxAge,
      });
    }
  }

  #bucket(id: string, rules: readonly LifecycleRule[], accessLogs?: Bucket): Bucket {
    const props: BucketProps = {
      blockPublicAccess: BlockPublicAccess.BLOCK_ALL,
      encryption: BucketEncryption.S3_MANAGED,
      enforceSSL: true,
      minimumTLSVersion: 1.2,
      versioned: true,
      objectOwnership: ObjectOwnership.BUCKET_OWNER_ENFORCED,
      removalPolicy: RemovalPolicy.RETAIN,
      lifecycleRules: [...rules],
    };
    if (accessLogs === undefined) return new Bucket(this, id, props);
    const serverAccessLogsPrefix = `${id.toLowerCase()}/`;
    return new Bucket(this, id, {
      ...props,
      // Bucket says `boolean | undefined` where its interface says `boolean?`.
      serverAccessLogsBucket: accessLogs as IBucket,
      serverAccessLogsPrefix,
    });
  }
}

/** Releases and the shelf stay; an object that was cleared up by mistake can be fetched back for a season. */
const KEPT: LifecycleRule = {
  abortIncompleteMultipartUploadAfter: Duration.days(1),
  noncurrentVersionExpiration: Duration.days(90),
};

const expiring = (days: number): LifecycleRule => ({
  expiration: Duration.days(days),
  noncurrentVersionExpiration: Duration.days(7),
  abortIncompleteMultipartUploadAfter: Duration.days(1),
});

/** On the bucket itself: the construct's own switch would bring a function of its own along. */
function tellEventBridge(bucket: Bucket): void {
  const resource = bucket.node.defaultChild as CfnBucket;
  resource.notificationConfiguration = {
    eventBridgeConfiguration: { eventBridgeEnabled: true },
  };
}
