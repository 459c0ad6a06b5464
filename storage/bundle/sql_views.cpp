// The views that people of an office ask, and the role that may only read. All stand on the tables
// of sql_tables.cpp; what they say of "today" is the server's day.
#include "storage/bundle/sql_schema.h"

namespace storage {
namespace {

// The next round of each course that goes on, the most overdue first.
constexpr std::string_view kDue = R"(
CREATE OR REPLACE VIEW duskwalk.due_by_yard AS
SELECT yard_name, round, of_rounds, planned, CURRENT_DATE - planned AS days_over, yard, course
FROM (SELECT DISTINCT ON (r.course) y.name AS yard_name, r.number AS round,
        (SELECT count(*) FROM duskwalk.planned_round a WHERE a.course = r.course) AS of_rounds,
        r.planned, r.yard, r.course
      FROM duskwalk.planned_round r JOIN duskwalk.yard y ON y.yard = r.yard
      WHERE NOT r.walked AND NOT r.ended AND NOT y.given_up
      ORDER BY r.course, r.number) AS next_round
ORDER BY planned, yard_name;
COMMENT ON VIEW duskwalk.due_by_yard IS
'The next round of each course: days_over is negative while it is still to come';
)";

// Numbers alone: what decides is in `duskwalk due`, which knows the limits of a sample.
constexpr std::string_view kOverThreshold = R"(
CREATE OR REPLACE VIEW duskwalk.over_threshold AS
SELECT y.name AS yard_name, c.name AS colony_name, m.day, m.method, m.mites, m.bees,
       round(100.0 * m.mites / m.bees, 1) AS mites_per_100,
       round(m.threshold_tenths / 10.0, 1) AS threshold_per_100, m.yard, m.colony
FROM (SELECT DISTINCT ON (a.colony) a.*, b.yard FROM duskwalk.mite_count a
      JOIN duskwalk.colony b ON b.colony = a.colony
      WHERE a.bees > 0 AND a.method IN ('alcohol_wash', 'sugar_roll') AND NOT b.lost
      ORDER BY a.colony, a.day DESC, a.seq DESC) AS m
JOIN duskwalk.colony c ON c.colony = m.colony JOIN duskwalk.yard y ON y.yard = m.yard
WHERE 1000.0 * m.mites >= m.threshold_tenths::numeric * m.bees
ORDER BY mites_per_100 DESC, yard_name, colony_name;
COMMENT ON VIEW duskwalk.over_threshold IS
'Colonies whose last wash or roll is at or over the threshold of its day. A small sample may mislead: duskwalk due says which counts decide';
)";

// Regulation (EU) 2019/6, Article 108(2), letter by letter; animals are colonies.
constexpr std::string_view kTreatmentsEu = R"(
CREATE OR REPLACE VIEW duskwalk.treatment_eu AS
SELECT t.day AS first_administered, t.product AS product_name, t.dose_g AS quantity_g,
       t.dose_words AS quantity_in_words, t.supplier AS supplier_name, t.supplier_address,
       t.receipt AS proof_of_acquisition, t.colony_name AS animals, t.yard_name,
       NULL::text AS prescribing_veterinarian, t.withdrawal_days,
       coalesce(t.days_given, 1) AS duration_days, t.lot_code, t.device, t.seq, t.colony
FROM duskwalk.treatment t
WHERE t.counts AND t.outcome NOT IN ('passed over', 'not reached')
ORDER BY t.day, t.at, t.yard_name, t.colony_name;
COMMENT ON VIEW duskwalk.treatment_eu IS
'What Regulation (EU) 2019/6, Article 108(2), asks for. A prescription is not in the log: add who wrote it';
)";

// Veterinary Medicines Regulations 2013 (UK), regulation 19, on the keeper's records.
constexpr std::string_view kTreatmentsUk = R"(
CREATE OR REPLACE VIEW duskwalk.treatment_uk AS
SELECT t.product AS product_name, t.lot_code AS batch_number, t.day AS administered,
       t.dose_g AS quantity_g, t.dose_words AS quantity_in_words, t.withdrawal_days,
       t.colony_name AS animals, t.yard_name, t.operator_name AS administered_by,
       t.supplier AS supplier_name, t.supplier_address, t.receipt, t.device, t.seq, t.colony
FROM duskwalk.treatment t
WHERE t.counts AND t.outcome NOT IN ('passed over', 'not reached')
ORDER BY t.day, t.at, t.yard_name, t.colony_name;
COMMENT ON VIEW duskwalk.treatment_uk IS
'What the Veterinary Medicines Regulations 2013 of the United Kingdom ask of a keeper';
)";

// 7 CFR 110.3: records of restricted pesticides; a state may ask for the same of others.
constexpr std::string_view kTreatmentsUs = R"(
CREATE OR REPLACE VIEW duskwalk.treatment_us AS
SELECT t.product AS brand_name, t.registration AS epa_registration,
       t.dose_g AS amount_applied_g, t.dose_words AS amount_in_words,
       t.yard_name AS location, t.colony_name AS site, t.day AS applied,
       t.operator_name AS applicator, t.operator_address AS applicator_address, t.device, t.seq,
       t.colony
FROM duskwalk.treatment t
WHERE t.counts AND t.outcome NOT IN ('passed over', 'not reached')
ORDER BY t.day, t.at, t.yard_name, t.colony_name;
COMMENT ON VIEW duskwalk.treatment_us IS
'What 7 CFR 110.3 asks for, a row for each hive. The number of a certificate is not in the log';
)";

constexpr std::string_view kLotsLeft = R"(
CREATE OR REPLACE VIEW duskwalk.lots_left AS
SELECT product, code, expiry, expiry < CURRENT_DATE AS expired, received_g, used_g, disposed_g,
       received_g - used_g - disposed_g AS left_g, supplier, receipt, lot
FROM duskwalk.lot ORDER BY expiry, product, code;
COMMENT ON VIEW duskwalk.lots_left IS 'Acid on the shelf, by delivery';
)";

// A correction strikes too: both name the entry that they take back, by the tablet's own id; the
// reason tells the sides of a fork apart.
constexpr std::string_view kStruck = R"(
CREATE OR REPLACE VIEW duskwalk.struck AS
SELECT e.kind, e.at, e.struck_because AS reason, s.at AS struck_at, s.kind AS struck_by_entry,
       s.device AS struck_by_tablet, s.seq AS struck_by_seq, e.device, e.seq, e.body
FROM duskwalk.entry e
LEFT JOIN duskwalk.entry s ON s.counts AND s.kind IN ('entry_struck', 'entry_corrected')
 AND s.body -> 'entry' ->> 'device' = e.device::text
 AND (s.body -> 'entry' ->> 'seq')::bigint = e.seq AND s.body ->> 'reason' = e.struck_because
WHERE e.struck_because IS NOT NULL
ORDER BY s.at, e.at;
COMMENT ON VIEW duskwalk.struck IS
'Entries that were taken back, why, when and on which tablet; they stay in the log';
)";

// Whoever loads may not be allowed to make roles: then there is none, and the load goes through.
constexpr std::string_view kReader = R"(
DO $reader$ BEGIN
  IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'duskwalk_reader') THEN
    CREATE ROLE duskwalk_reader NOLOGIN;
  END IF;
  GRANT USAGE ON SCHEMA duskwalk TO duskwalk_reader;
  GRANT SELECT ON ALL TABLES IN SCHEMA duskwalk TO duskwalk_reader;
EXCEPTION WHEN insufficient_privilege OR duplicate_object OR unique_violation THEN
  RAISE NOTICE 'duskwalk_reader was not made: ask who administers the server';
END $reader$;
)";

}  // namespace

std::string sql_views() {
  std::string sql;
  for (const std::string_view view : {kDue, kOverThreshold, kTreatmentsEu, kTreatmentsUk,
                                      kTreatmentsUs, kLotsLeft, kStruck, kReader})
    sql += view;
  return sql;
}

}  // namespace storage
