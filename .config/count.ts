export interface Count {
  readonly passed: number;
  readonly failed: number;
}

/** The part of the test runner's JSON report that is counted. */
export interface Report {
  readonly testResults: readonly {
    readonly status: string;
    readonly assertionResults: readonly { readonly status: string }[];
  }[];
}

/**
 * A test that did not pass has failed, skipped ones too; so has a file that could not be read, a run without a test, and a
 * run that ended badly although each of its tests passed.
 */
export function countReport(report: Report | undefined, code: number): Count {
  const files = report?.testResults ?? [];
  const tests = files.flatMap(({ assertionResults }) => assertionResults);
  const passed = tests.filter(({ status }) => status === 'passed').length;
  const unread = files.filter(({ status, assertionResults }) => status !== 'passed' && assertionResults.every((test) => test.status === 'passed')).length;
  const failed = tests.length - passed + unread;
  return { passed, failed: failed === 0 && (code !== 0 || passed === 0) ? 1 : failed };
}
