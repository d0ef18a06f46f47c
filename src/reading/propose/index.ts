export { questionsAhead, withAnswers } from './ahead.js';
export { type Asked, answersInWords, isAnswer, openQuestion, withAnswer, withoutOpen } from './asked.js';
export { NO_READING, questionsOf, settledReading } from './questions.js';
