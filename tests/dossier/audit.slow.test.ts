// A byte of every file: those of every day are one of each kind.
process.env['SPOILT'] = 'every file';
await import('./audit.test.js');
