import { carrying } from '../compute/carried-error.js';
import { surveyAnswer } from './survey-answer.js';

export default carrying(surveyAnswer);
