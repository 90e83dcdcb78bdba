/** A worker for the tests of the crew: breaks off, keeps silent or answers, as its job's folder says. */
process.on('message', ({ id, kind, ask }) => {
  if (kind === 'stop') return;
  if (ask.folder === 'breaks') process.exit(7);
  if (ask.folder === 'answers')
    process.send({ kind: 'done', id, answer: { findings: [], texts: new Map([['a', 1]]) } });
});
process.on('disconnect', () => process.exit());
