/** A worker for the tests of the crew: breaks off, keeps silent or answers, as the name in its job says. */
process.on('message', ({ id, kind, ask }) => {
  if (kind === 'stop') return;
  if (ask.name === 'breaks') process.exit(7);
  if (ask.name === 'answers')
    process.send({ kind: 'done', id, answer: { findings: [], texts: new Map([['a', 1]]) } });
});
process.on('disconnect', () => process.exit());
