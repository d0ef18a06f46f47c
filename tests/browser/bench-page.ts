import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { readRulingFiles } from '../../src/acts/inputs/ruling-files.js';
import type { Rulings } from '../../src/model/rulings.js';
import { newFolder } from '../cli/command.js';

/** What a person does with the page: choose in the list, decide, sign, save and load. */
export function benchOf(page: Page) {
  const list = page.getByRole('navigation', { name: 'List of findings' });
  const row = (number: number) => list.locator('a').nth(number - 1);
  const button = (name: string) => page.getByRole('button', { name, exact: true });
  const sign = async (name = 'Teo Anselm', day = '2031-03-02'): Promise<void> => {
    await page.getByLabel('Your name').fill(name);
    await page.getByLabel('Day').fill(day);
  };
  return {
    list,
    row,
    button,
    sign,
    /** Numbers of the findings that are listed. */
    listed: async (): Promise<readonly number[]> => (await list.locator('a:visible .number').allTextContents()).map(Number),
    /** Number of the finding that is shown; NaN where none is. */
    chosen: async (): Promise<number> => {
      const heads = await page.locator('.finding:visible h3').allTextContents();
      return heads.length === 1 ? Number.parseInt(heads[0] ?? '', 10) : Number.NaN;
    },
    decide: async (number: number, decision: string, note = ''): Promise<void> => {
      await row(number).click();
      await button(decision).click();
      if (note !== '') {
        await page.locator('#note').fill(note);
        await page.locator('#note').blur();
      }
    },
    /** What is decided of a finding, as the list says it. */
    told: (number: number) => row(number).locator('.told').textContent(),
    /** Saves, with name and day where they are asked for, and reads the file back as `verify --rulings` does, its schema included. */
    saved: async (): Promise<Rulings['rulings']> => {
      await button('Save rulings').first().click();
      const dialog = page.getByRole('dialog', { name: 'Who decides?' });
      if (await dialog.isVisible()) await sign();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        (await dialog.isVisible()) ? dialog.getByRole('button', { name: 'Save rulings' }).click() : button('Save rulings').first().click(),
      ]);
      expect(download.suggestedFilename()).toBe('rulings.json');
      const path = join(newFolder(), 'rulings.json');
      await download.saveAs(path);
      expect((JSON.parse(readFileSync(path, 'utf8')) as Rulings).format).toBe('reeltally/rulings/1');
      return (await readRulingFiles([path], '2031-01-01')).rulings;
    },
    /** Loads a file of rulings, or of something else. */
    load: async (content: unknown): Promise<void> => {
      const path = join(newFolder(), 'rulings.json');
      writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), button('Load rulings').click()]);
      await chooser.setFiles(path);
    },
  };
}
