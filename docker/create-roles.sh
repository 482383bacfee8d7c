#!/bin/sh
# Run once by the database's first start: an owner for migrations and an app role that row-level
# security binds. Neither is a superuser.
set -eu
psql --set=ON_ERROR_STOP=1 --username="$POSTGRES_USER" \
  --set=owner_password="$OWNER_PASSWORD" --set=app_password="$APP_PASSWORD" <<'SQL'
CREATE ROLE lastheard_owner LOGIN PASSWORD :'owner_password';
CREATE ROLE lastheard_app LOGIN PASSWORD :'app_password';
CREATE DATABASE lastheard OWNER lastheard_owner;
SQL
