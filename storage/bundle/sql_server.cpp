#include "storage/bundle/sql_server.h"

#include <fmt/format.h>
#include <libpq-fe.h>

#include <memory>

#include "storage/bundle/sql_schema.h"
#include "storage/bundle/sql_tables.h"
#include "storage/text/utf8.h"

namespace storage {
namespace {

struct CloseConnection {
  void operator()(PGconn* connection) const { PQfinish(connection); }
};
struct ClearResult {
  void operator()(PGresult* result) const { PQclear(result); }
};
using ResultHandle = std::unique_ptr<PGresult, ClearResult>;

// What the server says, on one line; its later lines are hints and positions.
std::string first_line_of(const char* message) {
  const std::string_view all = message == nullptr ? "" : message;
  return std::string(trimmed(all.substr(0, all.find('\n'))));
}

class Server {
 public:
  [[nodiscard]] static Result<Server> connect(const std::string& url) {
    Server server;
    const char* const keys[] = {"dbname", "client_encoding", "fallback_application_name", nullptr};
    const char* const values[] = {url.c_str(), "UTF8", "duskwalk", nullptr};
    server.connection_.reset(PQconnectdbParams(keys, values, 1));
    PQsetNoticeProcessor(
        server.connection_.get(), [](void*, const char*) {}, nullptr);
    if (PQstatus(server.connection_.get()) != CONNECTION_OK) return server.failure();
    return server;
  }

  Status run(const std::string& sql) {
    return said(ResultHandle(PQexec(connection_.get(), sql.c_str())), PGRES_COMMAND_OK);
  }
  Status begin_copy(const std::string& sql) {
    return said(ResultHandle(PQexec(connection_.get(), sql.c_str())), PGRES_COPY_IN);
  }
  Status send(std::string_view rows) {
    const int sent = PQputCopyData(connection_.get(), rows.data(), static_cast<int>(rows.size()));
    return sent == 1 ? Status{} : failure();
  }
  Status end_copy() {
    if (PQputCopyEnd(connection_.get(), nullptr) != 1) return failure();
    Status all;
    while (const ResultHandle result{PQgetResult(connection_.get())})
      if (all.ok() && PQresultStatus(result.get()) != PGRES_COMMAND_OK) all = failure();
    return all;
  }

 private:
  [[nodiscard]] Status failure() const {
    return {Code::Failed, fmt::format("PostgreSQL: {}. Nothing was changed there",
                                      first_line_of(PQerrorMessage(connection_.get())))};
  }
  // A statement with a question in it (the lock) answers with rows that nobody needs.
  [[nodiscard]] Status said(const ResultHandle& result, ExecStatusType wanted) const {
    const ExecStatusType got = PQresultStatus(result.get());
    return got == wanted || (wanted == PGRES_COMMAND_OK && got == PGRES_TUPLES_OK) ? Status{}
                                                                                   : failure();
  }

  std::unique_ptr<PGconn, CloseConnection> connection_;
};

Status load_table(Server& server, const SqlTable& table, SqlExport& from, const SqlNames& names) {
  if (Status s = server.run(stage_sql(table)); !s.ok()) return s;
  if (Status s = server.begin_copy(fmt::format("COPY staged_{} FROM STDIN", table.name)); !s.ok())
    return s;
  CopyFile rows([&server](std::string_view piece) { return server.send(piece); });
  if (Status s = table.write(rows, from); !s.ok()) return s;
  if (Status s = rows.end(); !s.ok()) return s;
  if (Status s = server.end_copy(); !s.ok()) return s;
  return server.run(upsert_sql(table, names));
}

}  // namespace

// What is not committed when the connection ends never was.
Result<SqlWritten> load_into_server(const Store& store, const std::string& url,
                                    const Progress& progress,
                                    const std::function<bool()>& stopped) {
  auto server = Server::connect(url);
  if (!server.ok()) return server.status();
  SqlExport from{store, progress, stopped};
  const SqlNames names(store.farm());
  if (Status s = server.value().run(begin_sql()); !s.ok()) return s;
  if (Status s = server.value().run(sql_schema()); !s.ok()) return s;
  if (Status s = server.value().run(export_sql(names)); !s.ok()) return s;
  for (const SqlTable& table : sql_tables()) {
    if (stopped()) return sql_stopped();
    if (Status s = load_table(server.value(), table, from, names); !s.ok()) return s;
  }
  if (Status s = server.value().run(end_sql()); !s.ok()) return s;
  return from.written;
}

}  // namespace storage
