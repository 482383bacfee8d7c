import { describe, expect, it } from '@jest/globals';

import { drawSite, type RecordNode } from '../support/draw-site.js';
import { DESK_SCREEN, inBrowser } from '../support/in-browser.js';
import { lookOver } from '../support/look-over.js';

const PHONE = { viewport: { width: 360, height: 740 } };
const room = (n: number, floor: string, groups: string[] = []) =>
  ({
    node: `A${n}`,
    cableMetres: 10,
    room: `Room ${n}`,
    block: 'Main',
    floor,
    groups,
  }) as RecordNode;

describe('the office’s report, in a browser', () => {
  const at = inBrowser(PHONE);

  const open = async (siteId: string) => {
    const { body } = await at.test.http.post(`/api/v1/sites/${siteId}/passes`).expect(201);
    await at.page.goto(`${at.address}/pass#${body.link.split('#')[1]}`);
    await at.heading('Larkfield Lower School');
  };
  const said = async (siteId: string) => {
    const { body } = await at.test.http.get(`/api/v1/tickets?site=${siteId}`).expect(200);
    expect(body.items).toHaveLength(1);
    const [ticket] = body.items;
    const read = async (what: string) =>
      (await at.test.http.get(`/api/v1/tickets/${ticket.id}/${what}`).expect(200)).body.items;
    return { ticket, observations: await read('observations'), log: await read('log') };
  };

  it('takes whole floors and groups, several things that were tried, and what cannot wait', async () => {
    const nodes = [
      ...[1, 2, 3].map((n) => room(n, 'ground', n < 3 ? ['Juniors'] : [])),
      ...[4, 5].map((n) => room(n, '1')),
    ];
    const siteId = await drawSite(at.test, [{ trunk: 'A', nodes }]);
    await open(siteId);
    const { page, role, says } = at;
    await role('radio', 'Announcement').check();
    await role('button', 'Everywhere: all silent').click();
    await says('5 silent, 0 heard');
    await role('button', 'Main, ground floor: all heard').click();
    await says('2 silent, 3 heard');
    // A second touch takes it back, a room after it counts for itself.
    await role('button', 'Main, ground floor: clear').click();
    await role('button', /^Room 3 /).click();
    await says('3 silent, 0 heard');

    await role('radio', 'Bell').check();
    await says('0 silent, 0 heard');
    await role('button', 'Juniors: all silent').click();
    for (const word of ['silent', 'heard', 'faint']) {
      await role('button', /^Room 5 /).click();
      await role('button', `Room 5 ${word}`).waitFor();
    }
    await says('Announcement: 3 silent, 0 heard. Bell: 2 silent, 0 heard, 1 faint.');

    await page.getByLabel('It cannot wait').check();
    await role('textbox', 'Your name').fill('Mara Quill');
    await role('button', 'Send').click();
    await says('Please say why it cannot wait.');
    await page.getByLabel('Why it cannot wait').fill('Examinations begin at nine');
    await page.getByLabel('A number to call you back on').fill('0555 0142');
    await page.getByLabel('It hums').check();
    await page.getByLabel('Anything else (you need not)').fill('Since the painters left');
    await lookOver(page, 'pass-everything-said');
    await page.reload();
    await says('Announcement: 3 silent, 0 heard. Bell: 2 silent, 0 heard, 1 faint.');
    await role('button', 'Send').click();
    await at.heading(/^Thank you\. Your ticket is number \d+\.$/);

    const { ticket, observations, log } = await said(siteId);
    expect(ticket.urgentReason).toBe('Examinations begin at nine');
    const told = observations.map(
      (one: Record<string, string>) => `${one.function} ${one.node} ${one.outcome}`,
    );
    expect(told.sort()).toEqual([
      'announcement A3 fails',
      'announcement A4 fails',
      'announcement A5 fails',
      'bell A1 fails',
      'bell A2 fails',
      'bell A5 weak',
    ]);
    expect(log[0].details).toMatchObject({
      callBackPhone: '0555 0142',
      oddities: ['humming'],
      note: 'Since the painters left',
    });

    // The desk reads it, and whom to call.
    await page.setViewportSize(DESK_SCREEN.viewport);
    await at.signIn(at.test.owner.email, '/desk');
    await says('Cannot wait: Examinations begin at nine');
    await page.goto(`${at.address}/desk/tickets/${ticket.number}`);
    await says('Cannot wait: Examinations begin at nine');
    await says('Call Mara Quill back on');
    expect(await role('link', '0555 0142').getAttribute('href')).toBe('tel:05550142');
    await says(/Mara Quill reported.*Since the painters left; It hums; Cannot wait/);
    await lookOver(page, 'ticket-cannot-wait');
  });

  it('is in words where nobody has drawn the site', async () => {
    const siteId = await drawSite(at.test, []);
    await open(siteId);
    const { page, role, says } = at;
    await says('Nobody has drawn this site yet');
    await role('textbox', 'Your name').fill('Mara Quill');
    await role('button', 'Send').click();
    await says('Please say which rooms, and what is silent there.');
    const words = 'No bell in the old wing since Monday';
    await page.getByLabel('Which rooms, and what is silent there?').fill(words);
    await lookOver(page, 'pass-not-drawn');
    await role('button', 'Send').click();
    await at.heading(/^Thank you\. Your ticket is number \d+\.$/);
    const { ticket, observations, log } = await said(siteId);
    expect([observations, log[0].details.note]).toEqual([[], words]);

    await page.setViewportSize(DESK_SCREEN.viewport);
    await at.signIn(at.test.owner.email, `/desk/tickets/${ticket.number}`);
    await says(`Mara Quill reported. ${words}`);
    await lookOver(page, 'ticket-not-drawn');

    // Who is on the telephone is heard in words too.
    await page.goto(`${at.address}/desk/call?site=${siteId}`);
    await says('Nothing is drawn at this site yet');
    await page.getByLabel('Who is ringing?').fill('Ada Brill');
    await role('button', 'Send').click();
    await says('Please say which rooms, and what is silent there.');
    await page.getByLabel('Which rooms, and what is silent there?').fill('Nor in the gymnasium');
    await page.getByLabel('Why it cannot wait, if so').fill('Sports day');
    await page.getByLabel('A number to call back on').fill('0555 0188');
    await lookOver(page, 'desk-call-not-drawn');
    await role('button', 'Send').click();
    await says('It joined what was open already.');
    const again = await said(siteId);
    expect(again.ticket.urgentReason).toBe('Sports day');
    expect(again.log[1].details).toMatchObject({
      note: 'Nor in the gymnasium',
      callBackPhone: '0555 0188',
    });
  });
});
