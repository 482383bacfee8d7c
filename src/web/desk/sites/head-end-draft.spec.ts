import { describe, expect, it } from '@jest/globals';

import { headEndDraft, headEndOf } from './head-end-draft.js';

const RECORDED = {
  model: 'HE-6',
  serial: null,
  place: 'Office',
  installedOn: '2024-05-03',
  supplyVolts: 24,
  supplyOhms: 0.2,
  stationAmps: null,
  coreOhmsPerKm: null,
};

describe('the figures of a head-end as they are typed', () => {
  it('come back as they were', () => {
    expect(headEndOf(headEndDraft(RECORDED))).toEqual({ headEnd: RECORDED });
  });

  it('take a comma for a point, and nothing typed for not known', () => {
    const typed = { ...headEndDraft(RECORDED), supplyOhms: ' 0,25 ', supplyVolts: '', place: '  ' };
    expect(headEndOf(typed)).toEqual({
      headEnd: { ...RECORDED, supplyOhms: 0.25, supplyVolts: null, place: null },
    });
  });

  it('names each where no number was typed', () => {
    const typed = { ...headEndDraft(RECORDED), supplyVolts: '24 V', coreOhmsPerKm: '-1' };
    expect(headEndOf(typed)).toEqual({ wrong: ['supplyVolts', 'coreOhmsPerKm'] });
  });
});
