#include "engine/register/record_law.h"

#include <doctest/doctest.h>

namespace record_law_test {

using namespace engine;

namespace {

RegisterRow whole() {
  RegisterRow r;
  r.product = "Acid of the test", r.lot_code = "24-118";
  r.dose = Mass{1000};
  r.supplier = "Fold & Daughters", r.supplier_address = "1 Mill Lane", r.receipt = "R-31";
  r.withdrawal_days = 0;
  r.operator_name = "Wren Aldous", r.operator_address = "2 Quarry Cottages";
  return r;
}

constexpr RecordLaw kLaws[] = {RecordLaw::Eu, RecordLaw::Uk, RecordLaw::UsOrganic,
                               RecordLaw::NewSouthWales};

}  // namespace

TEST_CASE("a whole row misses nothing, and 0 days before honey are a number") {
  const RegisterRow rows[] = {whole()};
  for (const RecordLaw law : kLaws) CHECK(missing_for(law, rows).empty());
}

// Regulation (EU) 2019/6 Art. 108(2): name, quantity, supplier and address, proof of purchase,
// withdrawal "even if zero", duration. UK regulations: batch too, no proof of purchase. 7 USC
// 6519: name and address of each applicator, rate. The Australian code: methods.
TEST_CASE("each law names what it asks for, and no other") {
  RegisterRow bare;
  bare.method = Method::Strip;
  const RegisterRow rows[] = {bare, whole()};
  const auto count = [&](RecordLaw law) { return missing_for(law, rows).size(); };
  CHECK(count(RecordLaw::Eu) == 7);
  CHECK(count(RecordLaw::Uk) == 6);
  CHECK(count(RecordLaw::UsOrganic) == 4);
  CHECK(missing_for(RecordLaw::NewSouthWales, rows) ==
        std::vector<std::string>{"product: missing in 1 of 2"});
  CHECK(missing_for(RecordLaw::UsOrganic, rows).back() ==
        "address of who treated: missing in 1 of 2");
}

TEST_CASE("colonies that got nothing, and entries taken back, miss nothing") {
  RegisterRow passed, struck;
  passed.outcome = Outcome::PassedOver;
  struck.fallen = Refusal::NoSuchColony;
  const RegisterRow rows[] = {passed, struck, whole()};
  for (const RecordLaw law : kLaws) CHECK(missing_for(law, rows).empty());
}

TEST_CASE("each law says how long the record is kept") {
  for (const RecordLaw law : kLaws)
    CHECK(law_says(law).front().find("5 years") != std::string::npos);
}

}  // namespace record_law_test
