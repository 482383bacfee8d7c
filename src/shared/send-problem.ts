import type { FastifyReply, FastifyRequest } from 'fastify';
import { chooseLanguage } from '../words/languages.js';
import { type Problem, PROBLEM_TYPE, problemIn } from './problem.js';

/** Whoever refuses. No cache keeps it: a 404 or a 414 may be kept for long where nothing says otherwise (RFC 9110, 15.1). */
export function sendProblem(request: FastifyRequest, reply: FastifyReply, problem: Problem): void {
  const language = chooseLanguage(request.headers['accept-language']);
  void reply
    .headers({
      'cache-control': 'no-store',
      'content-language': language === 'en' ? 'en' : `en, ${language}`,
      vary: 'Accept-Language',
    })
    .status(problem.status)
    .type(PROBLEM_TYPE)
    .send(problemIn(language, problem));
}
