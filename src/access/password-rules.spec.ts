import { describe, expect, it } from '@jest/globals';
import { refusePassword } from './password-rules.js';

const isCommon = (text: string) => ['password', 'dragon', 'qwertyuiop12'].includes(text);
const refuse = (password: string) => refusePassword(password, isCommon, ['Ilvo', 'Marsh', 'x']);

describe('refusePassword', () => {
  it('takes a long sentence, whatever kinds of letters it has', () => {
    expect(refuse('the kettle sings at nine')).toBeNull();
    expect(refuse('ключ лежит под камнем')).toBeNull();
  });

  it('refuses what is too short or too long', () => {
    expect(refuse('kettle sing')).toContain('at least 12');
    expect(refuse('a1b2'.repeat(51))).toContain('at most 200');
  });

  it('refuses common passwords, also with the usual ends or said again', () => {
    for (const one of ['qwertyuiop12', 'Password2026!', '!!!password123', 'dragondragon']) {
      expect(refuse(one)).toContain('tried first');
    }
    expect(refuse('abcabcabcabc')).toContain('tried first');
  });

  it('refuses what has hardly any different characters', () => {
    expect(refuse('aabbaabbbaaab')).toContain('too few');
  });

  it('refuses a password made of what others know', () => {
    expect(refuse('IlvoMarsh2026')).toContain('others know');
    expect(refuse('lastheard-ilvo')).toContain('others know');
    expect(refuse('ilvo likes grey herons')).toBeNull();
  });
});
