import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import tseslint from 'typescript-eslint';

export default tseslint.config(
  { ignores: ['dist/', 'dist-test/', '.data/', 'coverage/'] },
  js.configs.recommended,
  {
    files: ['**/*.{ts,tsx,cts}'],
    extends: [tseslint.configs.recommendedTypeChecked],
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { ignoreRestSiblings: true, argsIgnorePattern: '^_' },
      ],
      'max-lines': ['error', { max: 300 }],
      'max-lines-per-function': ['error', { max: 60, skipBlankLines: true, skipComments: true }],
      complexity: ['error', 15],
      'no-console': 'error',
    },
  },
  {
    // Engines round these as they like, and a page is to work out what the service does (docs/decisions/0152).
    files: [
      'src/{plan,drawing,locator,walk,locating,walks,history,reports,readings,looks}/**/*.ts',
    ],
    ignores: ['**/*.spec.ts'],
    rules: {
      'no-restricted-properties': [
        'error',
        ...[
          'exp',
          'expm1',
          'log',
          'log1p',
          'log2',
          'log10',
          'pow',
          'hypot',
          'sin',
          'cos',
          'tan',
          'atan',
          'atan2',
          'tanh',
          'cbrt',
        ].map((property) => ({ object: 'Math', property, message: 'See src/elementary/.' })),
      ],
      // Of two it is exact.
      'no-restricted-syntax': [
        'error',
        {
          selector: 'BinaryExpression[operator="**"]:not([left.value=2])',
          message: 'See src/elementary/power.ts.',
        },
      ],
    },
  },
  {
    // Tests: long describe blocks and `!` on what a builder just made are fine there.
    files: ['**/*.spec.ts', 'test/**/*.ts'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
      'max-lines': ['error', { max: 600 }],
      'max-lines-per-function': 'off',
      'no-console': 'off',
    },
  },
  {
    files: ['**/*.{js,mjs,cjs}'],
    languageOptions: {
      globals: { process: 'readonly', console: 'readonly', module: 'writable', URL: 'readonly' },
    },
  },
  prettier,
);
