#include "representative/circumstances.h"

#include "representative/ordinary.h"

namespace engine {

namespace {

using Circumstances = std::vector<Circumstance>;

Condition& with_condition(Record& record, ConditionName name) {
  Condition condition;
  condition.name = name;
  condition.post_inflammatory_polyps = false;
  condition.stricture = false;
  condition.dysplasia_within_5_years = false;
  record.patient.conditions->push_back(condition);
  return record.patient.conditions->back();
}

Condition& colitis(Record& record, ConditionName name, Extent extent, Activity activity) {
  Condition& condition = with_condition(record, name);
  condition.onset = "2010";
  condition.extent = extent;
  condition.activity = activity;
  return condition;
}

void add_colitis(Circumstances& changes) {
  for (const ConditionName name : {ConditionName::ulcerative_colitis, ConditionName::crohns_colitis}) {
    for (const Extent extent : {Extent::proctitis, Extent::left_sided, Extent::extensive}) {
      for (const Activity activity : {Activity::none, Activity::mild, Activity::moderate, Activity::severe}) {
        changes.push_back(
            [name, extent, activity](Record& record) { colitis(record, name, extent, activity); });
      }
    }
  }
  const auto extensive = [](Record& record) -> Condition& {
    return colitis(record, ConditionName::ulcerative_colitis, Extent::extensive, Activity::none);
  };
  changes.push_back([extensive](Record& record) { extensive(record).post_inflammatory_polyps = true; });
  changes.push_back([extensive](Record& record) { extensive(record).stricture = true; });
  changes.push_back([extensive](Record& record) { extensive(record).dysplasia_within_5_years = true; });
  changes.push_back([extensive](Record& record) {
    extensive(record);
    with_condition(record, ConditionName::primary_sclerosing_cholangitis);
  });
}

void add_conditions(Circumstances& changes) {
  for (const ConditionName name :
       {ConditionName::familial_adenomatous_polyposis, ConditionName::mutyh_associated_polyposis,
        ConditionName::serrated_polyposis_syndrome, ConditionName::primary_sclerosing_cholangitis}) {
    changes.push_back([name](Record& record) { with_condition(record, name); });
  }
  for (const char* gene : {"MLH1", "MSH2", "MSH6", "PMS2", "EPCAM"}) {
    changes.push_back(
        [gene](Record& record) { with_condition(record, ConditionName::lynch_syndrome).gene = gene; });
  }
  for (const int years : {1, 4, 9}) {
    changes.push_back([years](Record& record) {
      with_condition(record, ConditionName::colorectal_cancer_resected).resection_date =
          Date{ordinary_day.year - years, 3, 1};
    });
  }
  add_colitis(changes);
}

void add_examinations(Circumstances& changes) {
  for (const Grade grade :
       {Grade::excellent, Grade::good, Grade::fair, Grade::poor, Grade::adequate, Grade::inadequate}) {
    changes.push_back([grade](Record& record) {
      record.exam.boston.reset();
      put(record.exam.graded, grade);
    });
  }
  for (const int score : {0, 1, 2}) {
    changes.push_back([score](Record& record) { put(record.exam.boston->right, score); });
    changes.push_back([score](Record& record) {
      Boston& boston = *record.exam.boston;
      for (auto* segment : {&boston.right, &boston.transverse, &boston.left}) put(*segment, score);
    });
  }
  for (const Segment reached : {Segment::transverse_colon, Segment::sigmoid_colon})
    changes.push_back([reached](Record& record) { put(record.exam.reached, reached); });
  for (const Procedure procedure : {Procedure::flexible_sigmoidoscopy, Procedure::ct_colonography})
    changes.push_back([procedure](Record& record) { put(record.exam.procedure, procedure); });
  for (const Indication indication : {Indication::screening, Indication::family_history,
                                      Indication::bowel_disease_surveillance, Indication::cancer_follow_up})
    changes.push_back([indication](Record& record) { put(record.exam.indication, indication); });
  changes.push_back([](Record& record) { put(record.exam.cleared, false); });
}

void add_backgrounds(Circumstances& changes) {
  changes.push_back([](Record& record) { record.patient.life_expectancy_under_10_years = true; });
  for (const FamilyHistory history : {FamilyHistory::moderate, FamilyHistory::high})
    changes.push_back([history](Record& record) { record.patient.family_history = history; });
  for (const int age : {45, 65}) {
    changes.push_back([age](Record& record) { record.patient.relatives->push_back({1, "colorectal", age}); });
  }
}

void add_settings(Circumstances& changes) {
  changes.push_back([](Record& record) { record.setting.organised_screening = false; });
  changes.push_back([](Record& record) { record.setting.adenoma_detection_adequate = false; });
  changes.push_back([](Record& record) {  // a nation that invites from another age matters to the young
    record.setting.nation = "Northern Ireland";
    record.setting.screening_from_age.reset();
    make_aged(record, 45);
  });
}

}  // namespace

std::vector<Circumstance> circumstances() {
  Circumstances changes;
  add_examinations(changes);
  add_backgrounds(changes);
  add_settings(changes);
  add_conditions(changes);
  return changes;
}

}  // namespace engine
