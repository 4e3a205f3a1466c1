import type { Reporter, TestCase, TestResult } from '@playwright/test/reporter';

/** Tells at the end which tests took longest, so that one that has become slow is seen. */
export default class Slowest implements Reporter {
  private took: { title: string; seconds: number }[] = [];

  onTestEnd(test: TestCase, result: TestResult) {
    const [, project, file, ...titles] = test.titlePath();
    this.took.push({ title: `${project}: ${file}: ${titles.join(' ')}`, seconds: result.duration / 1000 });
  }

  onEnd() {
    if (!this.took.length) return;
    this.took.sort((one, other) => other.seconds - one.seconds);
    const all = this.took.reduce((sum, one) => sum + one.seconds, 0);
    console.log(`The slowest of ${this.took.length} tests (${all.toFixed(0)} s by one worker):`);
    for (const { title, seconds } of this.took.slice(0, 10)) console.log(`${seconds.toFixed(1).padStart(7)} s  ${title}`);
  }
}
