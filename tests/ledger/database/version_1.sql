-- A ledger as version 1 of the tables had it: made by that version of the program from invented people.
PRAGMA foreign_keys=OFF;
PRAGMA application_id=1146438999;
PRAGMA user_version=1;
BEGIN TRANSACTION;
CREATE TABLE entries (
  sequence INTEGER PRIMARY KEY,
  at TEXT NOT NULL,
  actor TEXT NOT NULL CHECK (actor <> ''),
  kind TEXT NOT NULL,
  subject TEXT NOT NULL,
  body TEXT NOT NULL,
  previous BLOB NOT NULL CHECK (length(previous) = 32),
  hash BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;
INSERT INTO entries VALUES(1,'2026-03-20T09:00:00.000Z','j.smith','ruleset installed','ruleset:test-a','{"document":"sha256:f87924d9ef6c2b0a75daa0b8ab362915e914a2a27b2bc933898abdb62403c611","edition":"1.0.0","imports":[],"ruleset":"test-a"}',X'0000000000000000000000000000000000000000000000000000000000000000',X'8a2455df99462bca6d4858a1ab77b04c1fee01ff5a87abb3e73303dd4453cf8e');
INSERT INTO entries VALUES(2,'2026-03-20T09:00:00.000Z','j.smith','person registered','person:P2','{"birth_date":"1961-05-04","identifiers":[{"system":"hospital-number","value":"H1"}],"name":{"family":"Example","given":"Ada"},"needs":null,"person":"P2","sex":"female"}',X'8a2455df99462bca6d4858a1ab77b04c1fee01ff5a87abb3e73303dd4453cf8e',X'eaf23c0ca768fb549e95143430c51417dc641b62e675409b030fdcf324175ad2');
INSERT INTO entries VALUES(3,'2026-03-20T09:00:00.000Z','j.smith','examination recorded','examination:E1','{"content":"sha256:0427d38102730c4484abb6680489ec32ddde9db80dd91eed46eca33b245dfe7a","document":"sha256:0427d38102730c4484abb6680489ec32ddde9db80dd91eed46eca33b245dfe7a","exam":"E1","findings":"1 polyp, largest 8 mm (sigmoid colon); 1 adenoma","line":1,"person":"P2","pots":[{"accession":"26HE1","awaited":0,"sent":"2026-03-10","specimen":"A"},{"accession":"26HE1B","awaited":0,"sent":"2026-03-10","specimen":"B"}],"record":{"exam":{"date":"2026-03-10","endoscopist":"Dr Invented","id":"E1","indication":"screening","lesions":[{"histology":{"dysplasia":"low grade","margin":"clear","type":"tubular adenoma"},"id":"L1","paris":"0-Is","removal":"en bloc","retrieved":true,"site":"sigmoid colon","size_mm":8,"specimen":"A"}],"place":"Example Unit","preparation":{"graded":"adequate"},"procedure":"colonoscopy","reached":"caecum","specimens":[{"accession":"26HE1","id":"A","sent":"2026-03-10"},{"accession":"26HE1B","id":"B","sent":"2026-03-10"}]},"patient":{"birth_date":"1961-05-04","identifiers":[{"system":"hospital-number","value":"H1"}],"name":{"family":"Example","given":"Ada"},"sex":"female"}},"risk":4,"source":"old.json"}',X'eaf23c0ca768fb549e95143430c51417dc641b62e675409b030fdcf324175ad2',X'99bbdfa8fe8e8ae07500eea03bcb5c7b769e420c7e55bab3bcfeebeb4a143fa5');
INSERT INTO entries VALUES(4,'2026-03-20T09:00:00.000Z','j.smith','specimen sent','examination:E1','{"accession":"26HE1","exam":"E1","person":"P2","sent":"2026-03-10","specimen":"A"}',X'99bbdfa8fe8e8ae07500eea03bcb5c7b769e420c7e55bab3bcfeebeb4a143fa5',X'3b60bf2d2b330af23c2627126d8e82c7d502d61543bceeff872977f8c091e625');
INSERT INTO entries VALUES(5,'2026-03-20T09:00:00.000Z','j.smith','specimen sent','examination:E1','{"accession":"26HE1B","exam":"E1","person":"P2","sent":"2026-03-10","specimen":"B"}',X'3b60bf2d2b330af23c2627126d8e82c7d502d61543bceeff872977f8c091e625',X'f2c4ecf67644b929bbcf3244bf86971c277b03f3f8b2a8a9ac94439514f7eed0');
INSERT INTO entries VALUES(6,'2026-03-20T09:00:00.000Z','j.smith','advice given','examination:E1','{"answers":[{"action":"surveillance colonoscopy","assumed":[],"cautions":["this supports and does not replace the judgement of the responsible clinician; local policy decides"],"counted_from":{"date":"2026-03-10","what":"examination"},"due":{"from":"2029-03-10","to":"2029-03-10"},"facts":{},"flags":[],"id":"E1","interval":{"from":"P3Y","to":"P3Y"},"possible":[],"questions":[],"reasons":[{"because":"the test says so","evidence":"engine","rule":"T-03","source":"none: made for tests"}],"record":"sha256:0427d38102730c4484abb6680489ec32ddde9db80dd91eed46eca33b245dfe7a","ruleset":{"digest":"sha256:f87924d9ef6c2b0a75daa0b8ab362915e914a2a27b2bc933898abdb62403c611","edition":"1.0.0","id":"test-a"},"state":"settled","then":[]}],"chosen":0,"earliest":"2029-03-10","earliest_site_check":null,"exam":"E1","person":"P2","reason":"to be signed: surveillance colonoscopy, due 2029-03-10","record":{"exam":{"date":"2026-03-10","endoscopist":"Dr Invented","id":"E1","indication":"screening","lesions":[{"histology":{"dysplasia":"low grade","margin":"clear","type":"tubular adenoma"},"id":"L1","paris":"0-Is","removal":"en bloc","retrieved":true,"site":"sigmoid colon","size_mm":8,"specimen":"A"}],"place":"Example Unit","preparation":{"graded":"adequate"},"procedure":"colonoscopy","reached":"caecum","specimens":[{"accession":"26HE1","id":"A","sent":"2026-03-10"},{"accession":"26HE1B","id":"B","sent":"2026-03-10"}]},"patient":{"birth_date":"1961-05-04","identifiers":[{"system":"hospital-number","value":"H1"}],"name":{"family":"Example","given":"Ada"},"sex":"female"}},"risk":4,"risk_without_site_check":4,"state":"settled","today":"2026-03-20"}',X'f2c4ecf67644b929bbcf3244bf86971c277b03f3f8b2a8a9ac94439514f7eed0',X'878e8959dd40bfc7b8dd378848ecc01d4e9fe0958884e96f3ae260ad1874391b');
INSERT INTO entries VALUES(7,'2026-03-20T09:00:00.000Z','j.smith','advice signed','examination:E1','{"action":"surveillance colonoscopy","advice":6,"clinician":"Dr Rao","due":{"from":"2029-03-10","to":"2029-03-10"},"exam":"E1","on":"2026-03-20","person":"P2","rule":"T-03","ruleset":"test-a"}',X'878e8959dd40bfc7b8dd378848ecc01d4e9fe0958884e96f3ae260ad1874391b',X'2ede06a554eb1619d7d1a4fd48489ad23e77c83372e26e4036818c6287b458db');
INSERT INTO entries VALUES(8,'2026-03-20T09:00:00.000Z','j.smith','recall opened','recall:R8','{"action":"surveillance colonoscopy","advice":6,"clinician":"Dr Rao","due":"2029-03-10","due_to":"2029-03-10","exam":"E1","interval_days":1096,"late_on":"2029-04-21","person":"P2","recall":"R8","risk":4,"rule":"T-03","ruleset":"test-a"}',X'2ede06a554eb1619d7d1a4fd48489ad23e77c83372e26e4036818c6287b458db',X'efa774934512070aff40f22524316745485e1e0e01240c3684b1537ac5289657');
INSERT INTO entries VALUES(9,'2029-03-01T09:00:00.000Z','j.smith','recall vetted','recall:R8','{"clinician":"Dr Rao","means":"letter","on":"2029-03-01","person":"P2","reason":"a new hip","recall":"R8","state":"vetted"}',X'efa774934512070aff40f22524316745485e1e0e01240c3684b1537ac5289657',X'e4e875f3b11696657caa0f11ea4c7b8f174ee76a26030dba1d214cb2280f7c65');
INSERT INTO entries VALUES(10,'2029-03-01T09:00:00.000Z','j.smith','recall invited','recall:R8','{"attempt":1,"clinician":"Dr Rao","means":"letter","on":"2029-03-01","person":"P2","reason":"a new hip","recall":"R8","state":"invited"}',X'e4e875f3b11696657caa0f11ea4c7b8f174ee76a26030dba1d214cb2280f7c65',X'7de7f5e2dc141a068d4d8de7d4c1f53b9bac7376bb772c6e72a8dd02e0ad9b64');
INSERT INTO entries VALUES(11,'2029-03-01T09:00:00.000Z','j.smith','recall invited','recall:R8','{"attempt":2,"clinician":"Dr Rao","means":"letter","on":"2029-03-01","person":"P2","reason":"a new hip","recall":"R8","state":"invited"}',X'7de7f5e2dc141a068d4d8de7d4c1f53b9bac7376bb772c6e72a8dd02e0ad9b64',X'0aa22ecf9b818fc00360b15b9c0a22868b0e076fdb794cb1fe70f98d3a21a447');
INSERT INTO entries VALUES(12,'2029-03-01T09:00:00.000Z','j.smith','recall not ready','recall:R8','{"clinician":"Dr Rao","from":"2029-03-05","late_on":"2029-05-07","means":"letter","on":"2029-03-01","person":"P2","reason":"a new hip","recall":"R8","state":"not ready","to":"2029-03-25"}',X'0aa22ecf9b818fc00360b15b9c0a22868b0e076fdb794cb1fe70f98d3a21a447',X'a15d5e6e02a8070316f3beea5a2e5701936459324029ba87328c42537ff79ed2');
INSERT INTO entries VALUES(13,'2029-03-01T09:00:00.000Z','j.smith','person registered','person:P13','{"birth_date":"1961-05-04","identifiers":[{"system":"hospital-number","value":"H2"}],"name":{"family":"Example","given":"Ada"},"needs":null,"person":"P13","sex":"female"}',X'a15d5e6e02a8070316f3beea5a2e5701936459324029ba87328c42537ff79ed2',X'230ff18519062e34532f940fce3174ed1d8806da3ae138afd950e96978d6231e');
INSERT INTO entries VALUES(14,'2029-03-01T09:00:00.000Z','j.smith','examination recorded','examination:E2','{"content":"sha256:2476f0bca9c9ed63506116e069cddc4fbfb1ab4df31ddab5146b64ee10de6104","document":"sha256:2476f0bca9c9ed63506116e069cddc4fbfb1ab4df31ddab5146b64ee10de6104","exam":"E2","findings":"1 polyp, largest 8 mm (sigmoid colon); 1 awaiting histology","line":1,"person":"P13","pots":[{"accession":"26HE2","awaited":1,"sent":"2029-02-10","specimen":"A"},{"accession":"26HE2B","awaited":0,"sent":"2029-02-10","specimen":"B"}],"record":{"exam":{"date":"2029-02-10","endoscopist":"Dr Invented","id":"E2","indication":"screening","lesions":[{"histology":null,"id":"L1","paris":"0-Is","removal":"en bloc","retrieved":true,"site":"sigmoid colon","size_mm":8,"specimen":"A"}],"place":"Example Unit","preparation":{"graded":"adequate"},"procedure":"colonoscopy","reached":"caecum","specimens":[{"accession":"26HE2","id":"A","sent":"2029-02-10"},{"accession":"26HE2B","id":"B","sent":"2029-02-10"}]},"patient":{"birth_date":"1961-05-04","identifiers":[{"system":"hospital-number","value":"H2"}],"name":{"family":"Example","given":"Ada"},"sex":"female"}},"risk":4,"source":"old.json"}',X'230ff18519062e34532f940fce3174ed1d8806da3ae138afd950e96978d6231e',X'7700a63853fa612c2e56e56117186ab8f1cf411ade1f695ffe0e7559b9000392');
INSERT INTO entries VALUES(15,'2029-03-01T09:00:00.000Z','j.smith','specimen sent','examination:E2','{"accession":"26HE2","exam":"E2","person":"P13","sent":"2029-02-10","specimen":"A"}',X'7700a63853fa612c2e56e56117186ab8f1cf411ade1f695ffe0e7559b9000392',X'a9ff46ff371f85de608247bae5ff399d2eab1227fe8d8332248568e991c9f364');
INSERT INTO entries VALUES(16,'2029-03-01T09:00:00.000Z','j.smith','specimen sent','examination:E2','{"accession":"26HE2B","exam":"E2","person":"P13","sent":"2029-02-10","specimen":"B"}',X'a9ff46ff371f85de608247bae5ff399d2eab1227fe8d8332248568e991c9f364',X'8f0efdb119abe6a11fc18e98cf100a4b66b6f976fe71e53b7e13202df9cdf435');
INSERT INTO entries VALUES(17,'2029-03-01T09:00:00.000Z','j.smith','advice given','examination:E2','{"answers":[{"action":"await pathology","assumed":[],"cautions":["this supports and does not replace the judgement of the responsible clinician; local policy decides"],"counted_from":null,"due":null,"facts":{},"flags":[],"id":"E2","interval":null,"possible":[{"action":"surveillance colonoscopy","due":{"from":"2032-02-10","to":"2032-02-10"},"interval":{"from":"P3Y","to":"P3Y"},"rule":"T-03","when":["exam.lesions[0].histology.type = tubular adenoma, tubulovillous adenoma or villous adenoma"]},{"action":"return to screening","due":null,"interval":null,"rule":"T-04","when":["exam.lesions[0].histology.type = other than tubular adenoma, tubulovillous adenoma, villous adenoma or adenocarcinoma"]},{"action":"refer","due":null,"interval":null,"rule":"T-01","when":["exam.lesions[0].histology.type = adenocarcinoma"]}],"questions":[{"fact":"exam.lesions[0].histology","why":"the report is awaited: it decides between surveillance colonoscopy in 3 years, refer and return to screening"}],"reasons":[{"because":"the histology of 1 lesion is awaited, and decides","evidence":"engine","rule":"pathology-gate","source":"this program: no next step is fixed while a report that can change it is awaited"}],"record":"sha256:2476f0bca9c9ed63506116e069cddc4fbfb1ab4df31ddab5146b64ee10de6104","ruleset":{"digest":"sha256:f87924d9ef6c2b0a75daa0b8ab362915e914a2a27b2bc933898abdb62403c611","edition":"1.0.0","id":"test-a"},"state":"awaiting pathology","then":[]}],"chosen":0,"earliest":"2032-02-10","earliest_site_check":null,"exam":"E2","person":"P13","reason":"awaiting pathology","record":{"exam":{"date":"2029-02-10","endoscopist":"Dr Invented","id":"E2","indication":"screening","lesions":[{"histology":null,"id":"L1","paris":"0-Is","removal":"en bloc","retrieved":true,"site":"sigmoid colon","size_mm":8,"specimen":"A"}],"place":"Example Unit","preparation":{"graded":"adequate"},"procedure":"colonoscopy","reached":"caecum","specimens":[{"accession":"26HE2","id":"A","sent":"2029-02-10"},{"accession":"26HE2B","id":"B","sent":"2029-02-10"}]},"patient":{"birth_date":"1961-05-04","identifiers":[{"system":"hospital-number","value":"H2"}],"name":{"family":"Example","given":"Ada"},"sex":"female"}},"risk":4,"risk_without_site_check":4,"state":"awaiting pathology","today":"2029-03-01"}',X'8f0efdb119abe6a11fc18e98cf100a4b66b6f976fe71e53b7e13202df9cdf435',X'd3e04cb842da084375142952d895fcadf2b5885e555a19ebe70896cd3e6824c8');
INSERT INTO entries VALUES(18,'2029-03-01T09:00:00.000Z','j.smith','histology entered','examination:E2','{"document":"sha256:4f59d3adf2decdad0650f5d938553e665b1824c437552c57bdaf63babee435f4","exam":"E2","findings":"1 polyp, largest 8 mm (sigmoid colon); 1 adenoma","lesions":[{"histology":{"dysplasia":"low grade","margin":"clear","type":"tubular adenoma"},"lesion":"L1","specimen":"A"}],"line":1,"person":"P13","pots":[{"accession":"26HE2","awaited":0,"sent":"2029-02-10","specimen":"A"},{"accession":"26HE2B","awaited":0,"sent":"2029-02-10","specimen":"B"}],"reported":"2026-03-19","reporter":"Dr Made-Up","source":"old-result.json"}',X'd3e04cb842da084375142952d895fcadf2b5885e555a19ebe70896cd3e6824c8',X'c1460b0b40605f157bc2e5a7f0fcd53871c9970b77f101d254fcab7e44f31cd7');
INSERT INTO entries VALUES(19,'2029-03-01T09:00:00.000Z','j.smith','advice given','examination:E2','{"answers":[{"action":"surveillance colonoscopy","assumed":[],"cautions":["this supports and does not replace the judgement of the responsible clinician; local policy decides"],"counted_from":{"date":"2029-02-10","what":"examination"},"due":{"from":"2032-02-10","to":"2032-02-10"},"facts":{},"flags":[],"id":"E2","interval":{"from":"P3Y","to":"P3Y"},"possible":[],"questions":[],"reasons":[{"because":"the test says so","evidence":"engine","rule":"T-03","source":"none: made for tests"}],"record":"sha256:4bc0c7f2712d536c0c8d374c675aa70eb36d09f6a86c0364ce1d7a902d7e3b3c","ruleset":{"digest":"sha256:f87924d9ef6c2b0a75daa0b8ab362915e914a2a27b2bc933898abdb62403c611","edition":"1.0.0","id":"test-a"},"state":"settled","then":[]}],"chosen":0,"earliest":"2032-02-10","earliest_site_check":null,"exam":"E2","person":"P13","reason":"to be signed: surveillance colonoscopy, due 2032-02-10","record":{"exam":{"date":"2029-02-10","endoscopist":"Dr Invented","id":"E2","indication":"screening","lesions":[{"histology":{"dysplasia":"low grade","margin":"clear","type":"tubular adenoma"},"id":"L1","paris":"0-Is","removal":"en bloc","retrieved":true,"site":"sigmoid colon","size_mm":8,"specimen":"A"}],"place":"Example Unit","preparation":{"graded":"adequate"},"procedure":"colonoscopy","reached":"caecum","specimens":[{"accession":"26HE2","id":"A","sent":"2029-02-10"},{"accession":"26HE2B","id":"B","sent":"2029-02-10"}]},"patient":{"birth_date":"1961-05-04","identifiers":[{"system":"hospital-number","value":"H2"}],"name":{"family":"Example","given":"Ada"},"sex":"female"}},"risk":4,"risk_without_site_check":4,"state":"settled","today":"2029-03-01"}',X'c1460b0b40605f157bc2e5a7f0fcd53871c9970b77f101d254fcab7e44f31cd7',X'b19cde63efbc6a405d1afb0f1d9289937b1d4ac2d1cd10f33e552c6177e250cf');
INSERT INTO entries VALUES(20,'2029-03-01T09:00:00.000Z','j.smith','advice superseded','examination:E2','{"advice":17,"because":"histology was entered","by":19,"exam":"E2","outcome":"","person":"P13"}',X'b19cde63efbc6a405d1afb0f1d9289937b1d4ac2d1cd10f33e552c6177e250cf',X'286cc56ad954c3901dd84099d953d1e29e857b7dc1c8e40c2a28334b95e51ad4');
INSERT INTO entries VALUES(21,'2029-03-01T09:00:00.000Z','j.smith','advice signed','examination:E2','{"action":"surveillance colonoscopy","advice":19,"clinician":"Dr Rao","due":{"from":"2032-02-10","to":"2032-02-10"},"exam":"E2","on":"2029-03-01","person":"P13","rule":"T-03","ruleset":"test-a"}',X'286cc56ad954c3901dd84099d953d1e29e857b7dc1c8e40c2a28334b95e51ad4',X'46c3eda0411abbf805ead342b850781ab4b1204df84b9a43bb6753a15c8b6c1a');
INSERT INTO entries VALUES(22,'2029-03-01T09:00:00.000Z','j.smith','recall opened','recall:R22','{"action":"surveillance colonoscopy","advice":19,"clinician":"Dr Rao","due":"2032-02-10","due_to":"2032-02-10","exam":"E2","interval_days":1095,"late_on":"2032-03-23","person":"P13","recall":"R22","risk":4,"rule":"T-03","ruleset":"test-a"}',X'46c3eda0411abbf805ead342b850781ab4b1204df84b9a43bb6753a15c8b6c1a',X'4396845c62fcc34fd48d987030a5e7d26c3fce8e846a322e82d36785eb1aab42');
INSERT INTO entries VALUES(23,'2029-03-01T09:00:00.000Z','j.smith','person died','person:P13','{"on":"2029-02-20","person":"P13"}',X'4396845c62fcc34fd48d987030a5e7d26c3fce8e846a322e82d36785eb1aab42',X'd802a7d607595ea11783333a9c77ff0bea93469f8164eb5d92223d3622c6803a');
INSERT INTO entries VALUES(24,'2029-03-01T09:00:00.000Z','j.smith','input refused','input:24','{"document":"sha256:021fb596db81e6d02bf3d2586ee3981fe519f275c0ac9ca76bbcf2ebb4097d96","errors":[{"code":"not_json","help":"","line":1,"message":"this is not JSON: unexpected end of input; expected string literal","path":""}],"line":1,"source":"old.json","what":"record"}',X'd802a7d607595ea11783333a9c77ff0bea93469f8164eb5d92223d3622c6803a',X'13ab2c742bf3076b9919261b1328cb0fc6d3b65061e772c460ec91cb7de20adb');
INSERT INTO entries VALUES(25,'2029-03-01T09:00:00.000Z','j.smith','examination recorded','examination:E3','{"content":"sha256:92deca9c8a62cb1f7d7bfa56224414b73cdbe13511464ee2d7f787a95b63d130","document":"sha256:92deca9c8a62cb1f7d7bfa56224414b73cdbe13511464ee2d7f787a95b63d130","exam":"E3","findings":"no polyps","line":1,"person":"P2","pots":[{"accession":"26HE3","awaited":0,"sent":"2029-03-30","specimen":"A"},{"accession":"26HE3B","awaited":0,"sent":"2029-03-30","specimen":"B"}],"record":{"exam":{"date":"2029-03-30","endoscopist":"Dr Invented","id":"E3","indication":"screening","lesions":[],"place":"Example Unit","preparation":{"graded":"adequate"},"procedure":"colonoscopy","reached":"caecum","specimens":[{"accession":"26HE3","id":"A","sent":"2029-03-30"},{"accession":"26HE3B","id":"B","sent":"2029-03-30"}]},"patient":{"birth_date":"1961-05-04","identifiers":[{"system":"hospital-number","value":"H1"}],"name":{"family":"Example","given":"Ada"},"sex":"female"}},"risk":4,"source":"old.json"}',X'13ab2c742bf3076b9919261b1328cb0fc6d3b65061e772c460ec91cb7de20adb',X'6e620dcabb43c5f9f5bf5971bfb0a17f9990781495c808e94207ed963b8c0cf3');
INSERT INTO entries VALUES(26,'2029-03-01T09:00:00.000Z','j.smith','specimen sent','examination:E3','{"accession":"26HE3","exam":"E3","person":"P2","sent":"2029-03-30","specimen":"A"}',X'6e620dcabb43c5f9f5bf5971bfb0a17f9990781495c808e94207ed963b8c0cf3',X'9fffd6d03f7e733d99aeaa039fa4ae8b426ba2f0773dd005af825e6ac132fc44');
INSERT INTO entries VALUES(27,'2029-03-01T09:00:00.000Z','j.smith','specimen sent','examination:E3','{"accession":"26HE3B","exam":"E3","person":"P2","sent":"2029-03-30","specimen":"B"}',X'9fffd6d03f7e733d99aeaa039fa4ae8b426ba2f0773dd005af825e6ac132fc44',X'8e2956d48969aa9b7bf1ac9bfe029b6c5d1c268147bb332e53ffe5e5234c633d');
INSERT INTO entries VALUES(28,'2029-03-01T09:00:00.000Z','j.smith','recall answered','recall:R8','{"days_after_due":20,"exam":"E3","person":"P2","recall":"R8","state":"answered","timing":"on time"}',X'8e2956d48969aa9b7bf1ac9bfe029b6c5d1c268147bb332e53ffe5e5234c633d',X'4e886c09e5522f462815dd2bc4510dd88077107ebf7496f1060a8667991e32f9');
INSERT INTO entries VALUES(29,'2029-03-01T09:00:00.000Z','j.smith','advice given','examination:E3','{"answers":[{"action":"return to screening","assumed":[],"cautions":["this supports and does not replace the judgement of the responsible clinician; local policy decides"],"counted_from":null,"due":null,"facts":{},"flags":[],"id":"E3","interval":null,"possible":[],"questions":[],"reasons":[{"because":"the test says so","evidence":"engine","rule":"T-04","source":"none: made for tests"}],"record":"sha256:35d6cc5e6af3b96f3ebd5c6cff6bd392ca69c2b61192abc77e0d5fb0c7a0a701","ruleset":{"digest":"sha256:f87924d9ef6c2b0a75daa0b8ab362915e914a2a27b2bc933898abdb62403c611","edition":"1.0.0","id":"test-a"},"state":"settled","then":[]}],"chosen":0,"earliest":null,"earliest_site_check":null,"exam":"E3","person":"P2","reason":"to be signed: return to screening","record":{"exam":{"date":"2029-03-30","endoscopist":"Dr Invented","id":"E3","indication":"screening","lesions":[],"place":"Example Unit","preparation":{"graded":"adequate"},"procedure":"colonoscopy","reached":"caecum","specimens":[{"accession":"26HE3","id":"A","sent":"2029-03-30"},{"accession":"26HE3B","id":"B","sent":"2029-03-30"}]},"patient":{"birth_date":"1961-05-04","identifiers":[{"system":"hospital-number","value":"H1"}],"name":{"family":"Example","given":"Ada"},"sex":"female"},"previous":[{"date":"2026-03-10","endoscopist":"Dr Invented","id":"E1","indication":"screening","lesions":[{"histology":{"dysplasia":"low grade","margin":"clear","type":"tubular adenoma"},"id":"L1","paris":"0-Is","removal":"en bloc","retrieved":true,"site":"sigmoid colon","size_mm":8,"specimen":"A"}],"place":"Example Unit","preparation":{"graded":"adequate"},"procedure":"colonoscopy","reached":"caecum","specimens":[{"accession":"26HE1","id":"A","sent":"2026-03-10"},{"accession":"26HE1B","id":"B","sent":"2026-03-10"}]}]},"risk":4,"risk_without_site_check":4,"state":"settled","today":"2029-03-01"}',X'4e886c09e5522f462815dd2bc4510dd88077107ebf7496f1060a8667991e32f9',X'b88753eae5922bf44cda6d6e922aaefe31d4e8fdfd52e8ffd69354fa6bbac42b');
CREATE TABLE documents (
  digest TEXT PRIMARY KEY,
  bytes BLOB NOT NULL
) STRICT;
INSERT INTO documents VALUES('sha256:f87924d9ef6c2b0a75daa0b8ab362915e914a2a27b2bc933898abdb62403c611',X'3c3f786d6c2076657273696f6e3d22312e302220656e636f64696e673d225554462d38223f3e0a3c646566696e6974696f6e7320786d6c6e733d2268747470733a2f2f7777772e6f6d672e6f72672f737065632f444d4e2f32303233303332342f4d4f44454c2f222069643d22746573742d6122206e616d653d22746573742d6122206e616d6573706163653d2275726e3a746573742d61223e3c696e707574446174612069643d2270617469656e7422206e616d653d2270617469656e74223e3c7661726961626c65206e616d653d2270617469656e74222f3e3c2f696e707574446174613e3c696e707574446174612069643d226578616d22206e616d653d226578616d223e3c7661726961626c65206e616d653d226578616d222f3e3c2f696e707574446174613e3c696e707574446174612069643d2270726576696f757322206e616d653d2270726576696f7573223e3c7661726961626c65206e616d653d2270726576696f7573222f3e3c2f696e707574446174613e3c696e707574446174612069643d2273657474696e6722206e616d653d2273657474696e67223e3c7661726961626c65206e616d653d2273657474696e67222f3e3c2f696e707574446174613e3c6465636973696f6e2069643d2261626f757422206e616d653d2241626f7574223e3c7661726961626c65206e616d653d2241626f7574222f3e3c6c69746572616c45787072657373696f6e3e3c746578743e7b69643a2022746573742d61222c2065646974696f6e3a2022312e302e30222c207469746c653a20224d61646520666f72207465737473222c207075626c69736865723a20226e6f6e65222c207075626c69736865643a2022323032362d30312d3031222c20646f693a20226e6f6e65222c2073746174653a202263757272656e74222c20737570657273656465733a205b5d2c20737570657273656465642062793a206e756c6c2c2063617574696f6e733a205b5d7d3c2f746578743e3c2f6c69746572616c45787072657373696f6e3e3c2f6465636973696f6e3e3c6465636973696f6e2069643d226e65787422206e616d653d224e6578742073746570223e3c7661726961626c65206e616d653d224e6578742073746570222f3e3c696e666f726d6174696f6e526571756972656d656e743e3c7265717569726564496e70757420687265663d222370617469656e74222f3e3c2f696e666f726d6174696f6e526571756972656d656e743e3c696e666f726d6174696f6e526571756972656d656e743e3c7265717569726564496e70757420687265663d22236578616d222f3e3c2f696e666f726d6174696f6e526571756972656d656e743e3c696e666f726d6174696f6e526571756972656d656e743e3c7265717569726564496e70757420687265663d222370726576696f7573222f3e3c2f696e666f726d6174696f6e526571756972656d656e743e3c696e666f726d6174696f6e526571756972656d656e743e3c7265717569726564496e70757420687265663d222373657474696e67222f3e3c2f696e666f726d6174696f6e526571756972656d656e743e3c6c69746572616c45787072657373696f6e3e3c746578743e3c215b43444154415b696620736f6d65206c20696e206578616d2e6c6573696f6e732073617469736669657320286c2e72656d6f76616c20213d20226e6f742072656d6f7665642220616e64206c2e686973746f6c6f67792e74797065203d20226164656e6f63617263696e6f6d612229207468656e207b616374696f6e3a20227265666572222c2066726f6d3a206e756c6c2c20746f3a206e756c6c2c20636f756e7465642066726f6d3a206e756c6c2c20636f756e7465642066726f6d20646174653a206e756c6c2c207468656e3a205b5d2c2072756c653a2022542d3031222c20626563617573653a20227468652074657374207361797320736f222c20616c736f3a205b5d2c2061736b20696e73746561643a206e756c6c7d20656c736520696620736f6d65206c20696e206578616d2e6c6573696f6e732073617469736669657320286c2e72656d6f76616c203d202270696563656d65616c2220616e64206c2e73697a655f6d6d203e3d20323029207468656e207b616374696f6e3a20227369746520636865636b222c2066726f6d3a206475726174696f6e282250324d22292c20746f3a206475726174696f6e282250364d22292c20636f756e7465642066726f6d3a206e756c6c2c20636f756e7465642066726f6d20646174653a206e756c6c2c207468656e3a205b5d2c2072756c653a2022542d3032222c20626563617573653a20227468652074657374207361797320736f222c20616c736f3a205b5d2c2061736b20696e73746561643a206e756c6c7d20656c736520696620736f6d65206c20696e206578616d2e6c6573696f6e732073617469736669657320286c2e72656d6f76616c20213d20226e6f742072656d6f7665642220616e64206c69737420636f6e7461696e73285b22747562756c6172206164656e6f6d61222c2022747562756c6f76696c6c6f7573206164656e6f6d61222c202276696c6c6f7573206164656e6f6d61225d2c206c2e686973746f6c6f67792e747970652929207468656e207b616374696f6e3a20227375727665696c6c616e636520636f6c6f6e6f73636f7079222c2066726f6d3a206475726174696f6e282250335922292c20746f3a206475726174696f6e282250335922292c20636f756e7465642066726f6d3a206e756c6c2c20636f756e7465642066726f6d20646174653a206e756c6c2c207468656e3a205b5d2c2072756c653a2022542d3033222c20626563617573653a20227468652074657374207361797320736f222c20616c736f3a205b5d2c2061736b20696e73746561643a206e756c6c7d20656c7365207b616374696f6e3a202272657475726e20746f2073637265656e696e67222c2066726f6d3a206e756c6c2c20746f3a206e756c6c2c20636f756e7465642066726f6d3a206e756c6c2c20636f756e7465642066726f6d20646174653a206e756c6c2c207468656e3a205b5d2c2072756c653a2022542d3034222c20626563617573653a20227468652074657374207361797320736f222c20616c736f3a205b5d2c2061736b20696e73746561643a206e756c6c7d5d5d3e3c2f746578743e3c2f6c69746572616c45787072657373696f6e3e3c2f6465636973696f6e3e3c6465636973696f6e2069643d22726f777322206e616d653d22526f7773223e3c7661726961626c65206e616d653d22526f7773222f3e3c696e666f726d6174696f6e526571756972656d656e743e3c7265717569726564496e70757420687265663d22236578616d222f3e3c2f696e666f726d6174696f6e526571756972656d656e743e3c6465636973696f6e5461626c6520686974506f6c6963793d22434f4c4c454354223e3c696e7075743e3c696e70757445787072657373696f6e3e3c746578743e6578616d2e69643c2f746578743e3c2f696e70757445787072657373696f6e3e3c2f696e7075743e3c6f7574707574206e616d653d22726f77222f3e3c616e6e6f746174696f6e206e616d653d22726f77222f3e3c616e6e6f746174696f6e206e616d653d2273617973222f3e3c616e6e6f746174696f6e206e616d653d22736f75726365222f3e3c616e6e6f746174696f6e206e616d653d2265766964656e6365222f3e3c72756c653e3c696e707574456e7472793e3c746578743e2d3c2f746578743e3c2f696e707574456e7472793e3c6f7574707574456e7472793e3c746578743e747275653c2f746578743e3c2f6f7574707574456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e542d30313c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e612072756c65206d61646520666f722074657374733c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e6e6f6e653a206d61646520666f722074657374733c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e656e67696e653c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c2f72756c653e3c72756c653e3c696e707574456e7472793e3c746578743e2d3c2f746578743e3c2f696e707574456e7472793e3c6f7574707574456e7472793e3c746578743e747275653c2f746578743e3c2f6f7574707574456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e542d30323c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e612072756c65206d61646520666f722074657374733c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e6e6f6e653a206d61646520666f722074657374733c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e656e67696e653c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c2f72756c653e3c72756c653e3c696e707574456e7472793e3c746578743e2d3c2f746578743e3c2f696e707574456e7472793e3c6f7574707574456e7472793e3c746578743e747275653c2f746578743e3c2f6f7574707574456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e542d30333c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e612072756c65206d61646520666f722074657374733c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e6e6f6e653a206d61646520666f722074657374733c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e656e67696e653c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c2f72756c653e3c72756c653e3c696e707574456e7472793e3c746578743e2d3c2f746578743e3c2f696e707574456e7472793e3c6f7574707574456e7472793e3c746578743e747275653c2f746578743e3c2f6f7574707574456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e542d30343c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e612072756c65206d61646520666f722074657374733c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e6e6f6e653a206d61646520666f722074657374733c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c616e6e6f746174696f6e456e7472793e3c746578743e656e67696e653c2f746578743e3c2f616e6e6f746174696f6e456e7472793e3c2f72756c653e3c2f6465636973696f6e5461626c653e3c2f6465636973696f6e3e3c2f646566696e6974696f6e733e0a');
INSERT INTO documents VALUES('sha256:0427d38102730c4484abb6680489ec32ddde9db80dd91eed46eca33b245dfe7a',X'7b226578616d223a7b2264617465223a22323032362d30332d3130222c22656e646f73636f70697374223a22447220496e76656e746564222c226964223a224531222c22696e6469636174696f6e223a2273637265656e696e67222c226c6573696f6e73223a5b7b22686973746f6c6f6779223a7b22647973706c61736961223a226c6f77206772616465222c226d617267696e223a22636c656172222c2274797065223a22747562756c6172206164656e6f6d61227d2c226964223a224c31222c227061726973223a22302d4973222c2272656d6f76616c223a22656e20626c6f63222c22726574726965766564223a747275652c2273697465223a227369676d6f696420636f6c6f6e222c2273697a655f6d6d223a382c2273706563696d656e223a2241227d5d2c22706c616365223a224578616d706c6520556e6974222c227072657061726174696f6e223a7b22677261646564223a226164657175617465227d2c2270726f636564757265223a22636f6c6f6e6f73636f7079222c2272656163686564223a2263616563756d222c2273706563696d656e73223a5b7b22616363657373696f6e223a223236484531222c226964223a2241222c2273656e74223a22323032362d30332d3130227d2c7b22616363657373696f6e223a22323648453142222c226964223a2242222c2273656e74223a22323032362d30332d3130227d5d7d2c2270617469656e74223a7b2262697274685f64617465223a22313936312d30352d3034222c226964656e74696669657273223a5b7b2273797374656d223a22686f73706974616c2d6e756d626572222c2276616c7565223a224831227d5d2c226e616d65223a7b2266616d696c79223a224578616d706c65222c22676976656e223a22416461227d2c22736578223a2266656d616c65227d7d');
INSERT INTO documents VALUES('sha256:2476f0bca9c9ed63506116e069cddc4fbfb1ab4df31ddab5146b64ee10de6104',X'7b226578616d223a7b2264617465223a22323032392d30322d3130222c22656e646f73636f70697374223a22447220496e76656e746564222c226964223a224532222c22696e6469636174696f6e223a2273637265656e696e67222c226c6573696f6e73223a5b7b22686973746f6c6f6779223a6e756c6c2c226964223a224c31222c227061726973223a22302d4973222c2272656d6f76616c223a22656e20626c6f63222c22726574726965766564223a747275652c2273697465223a227369676d6f696420636f6c6f6e222c2273697a655f6d6d223a382c2273706563696d656e223a2241227d5d2c22706c616365223a224578616d706c6520556e6974222c227072657061726174696f6e223a7b22677261646564223a226164657175617465227d2c2270726f636564757265223a22636f6c6f6e6f73636f7079222c2272656163686564223a2263616563756d222c2273706563696d656e73223a5b7b22616363657373696f6e223a223236484532222c226964223a2241222c2273656e74223a22323032392d30322d3130227d2c7b22616363657373696f6e223a22323648453242222c226964223a2242222c2273656e74223a22323032392d30322d3130227d5d7d2c2270617469656e74223a7b2262697274685f64617465223a22313936312d30352d3034222c226964656e74696669657273223a5b7b2273797374656d223a22686f73706974616c2d6e756d626572222c2276616c7565223a224832227d5d2c226e616d65223a7b2266616d696c79223a224578616d706c65222c22676976656e223a22416461227d2c22736578223a2266656d616c65227d7d');
INSERT INTO documents VALUES('sha256:4f59d3adf2decdad0650f5d938553e665b1824c437552c57bdaf63babee435f4',X'7b226578616d223a224532222c227265706f72746564223a22323032362d30332d3139222c227265706f72746572223a224472204d6164652d5570222c2273706563696d656e73223a5b7b226964223a2241222c226c6573696f6e73223a5b7b22686973746f6c6f6779223a7b22647973706c61736961223a226c6f77206772616465222c226d617267696e223a22636c656172222c2274797065223a22747562756c6172206164656e6f6d61227d2c226964223a224c31227d5d7d5d7d');
INSERT INTO documents VALUES('sha256:021fb596db81e6d02bf3d2586ee3981fe519f275c0ac9ca76bbcf2ebb4097d96',X'7b');
INSERT INTO documents VALUES('sha256:92deca9c8a62cb1f7d7bfa56224414b73cdbe13511464ee2d7f787a95b63d130',X'7b226578616d223a7b2264617465223a22323032392d30332d3330222c22656e646f73636f70697374223a22447220496e76656e746564222c226964223a224533222c22696e6469636174696f6e223a2273637265656e696e67222c226c6573696f6e73223a5b5d2c22706c616365223a224578616d706c6520556e6974222c227072657061726174696f6e223a7b22677261646564223a226164657175617465227d2c2270726f636564757265223a22636f6c6f6e6f73636f7079222c2272656163686564223a2263616563756d222c2273706563696d656e73223a5b7b22616363657373696f6e223a223236484533222c226964223a2241222c2273656e74223a22323032392d30332d3330227d2c7b22616363657373696f6e223a22323648453342222c226964223a2242222c2273656e74223a22323032392d30332d3330227d5d7d2c2270617469656e74223a7b2262697274685f64617465223a22313936312d30352d3034222c226964656e74696669657273223a5b7b2273797374656d223a22686f73706974616c2d6e756d626572222c2276616c7565223a224831227d5d2c226e616d65223a7b2266616d696c79223a224578616d706c65222c22676976656e223a22416461227d2c22736578223a2266656d616c65227d7d');
CREATE TABLE people (
  person TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  birth_date TEXT NOT NULL,
  sex TEXT NOT NULL,
  identifiers TEXT NOT NULL,
  needs TEXT NOT NULL,
  status TEXT NOT NULL,
  described INTEGER NOT NULL REFERENCES entries,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT, WITHOUT ROWID;
INSERT INTO people VALUES('P13','Example, Ada','1961-05-04','female','hospital-number H2','','died 2029-02-20',13,23);
INSERT INTO people VALUES('P2','Example, Ada','1961-05-04','female','hospital-number H1','','',2,2);
CREATE TABLE identifiers (
  value TEXT NOT NULL,
  system TEXT NOT NULL,
  person TEXT NOT NULL REFERENCES people,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (value, system)
) STRICT, WITHOUT ROWID;
INSERT INTO identifiers VALUES('H1','hospital-number','P2',2);
INSERT INTO identifiers VALUES('H2','hospital-number','P13',13);
CREATE TABLE history (
  person TEXT NOT NULL REFERENCES people,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (person, entry)
) STRICT, WITHOUT ROWID;
INSERT INTO history VALUES('P13',13);
INSERT INTO history VALUES('P13',14);
INSERT INTO history VALUES('P13',15);
INSERT INTO history VALUES('P13',16);
INSERT INTO history VALUES('P13',17);
INSERT INTO history VALUES('P13',18);
INSERT INTO history VALUES('P13',19);
INSERT INTO history VALUES('P13',20);
INSERT INTO history VALUES('P13',21);
INSERT INTO history VALUES('P13',22);
INSERT INTO history VALUES('P13',23);
INSERT INTO history VALUES('P2',2);
INSERT INTO history VALUES('P2',3);
INSERT INTO history VALUES('P2',4);
INSERT INTO history VALUES('P2',5);
INSERT INTO history VALUES('P2',6);
INSERT INTO history VALUES('P2',7);
INSERT INTO history VALUES('P2',8);
INSERT INTO history VALUES('P2',9);
INSERT INTO history VALUES('P2',10);
INSERT INTO history VALUES('P2',11);
INSERT INTO history VALUES('P2',12);
INSERT INTO history VALUES('P2',25);
INSERT INTO history VALUES('P2',26);
INSERT INTO history VALUES('P2',27);
INSERT INTO history VALUES('P2',28);
INSERT INTO history VALUES('P2',29);
CREATE TABLE examinations (
  exam TEXT PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people,
  date TEXT NOT NULL,
  place TEXT NOT NULL,
  endoscopist TEXT NOT NULL,
  findings TEXT NOT NULL,
  recorded INTEGER NOT NULL REFERENCES entries,
  awaited INTEGER NOT NULL,
  since TEXT NOT NULL,
  advice INTEGER REFERENCES entries,
  advice_state TEXT NOT NULL,
  reason TEXT NOT NULL,
  risk INTEGER NOT NULL,
  earliest TEXT NOT NULL,
  earliest_site_check TEXT NOT NULL,
  outcome TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT, WITHOUT ROWID;
INSERT INTO examinations VALUES('E1','P2','2026-03-10','Example Unit','Dr Invented','1 polyp, largest 8 mm (sigmoid colon); 1 adenoma',3,0,'',6,'settled','to be signed: surveillance colonoscopy, due 2029-03-10',4,'2029-03-10','','signed',7);
INSERT INTO examinations VALUES('E2','P13','2029-02-10','Example Unit','Dr Invented','1 polyp, largest 8 mm (sigmoid colon); 1 adenoma',14,0,'',19,'settled','to be signed: surveillance colonoscopy, due 2032-02-10',4,'2032-02-10','','signed',21);
INSERT INTO examinations VALUES('E3','P2','2029-03-30','Example Unit','Dr Invented','no polyps',25,0,'',29,'settled','to be signed: return to screening',4,'','','',29);
CREATE TABLE versions (
  exam TEXT NOT NULL REFERENCES examinations,
  content TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (exam, content)
) STRICT, WITHOUT ROWID;
INSERT INTO versions VALUES('E1','sha256:0427d38102730c4484abb6680489ec32ddde9db80dd91eed46eca33b245dfe7a',3);
INSERT INTO versions VALUES('E2','sha256:2476f0bca9c9ed63506116e069cddc4fbfb1ab4df31ddab5146b64ee10de6104',14);
INSERT INTO versions VALUES('E3','sha256:92deca9c8a62cb1f7d7bfa56224414b73cdbe13511464ee2d7f787a95b63d130',25);
CREATE TABLE pots (
  exam TEXT NOT NULL REFERENCES examinations,
  specimen TEXT NOT NULL,
  accession TEXT NOT NULL,
  sent TEXT NOT NULL,
  awaited INTEGER NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (exam, specimen)
) STRICT, WITHOUT ROWID;
INSERT INTO pots VALUES('E1','A','26HE1','2026-03-10',0,3);
INSERT INTO pots VALUES('E1','B','26HE1B','2026-03-10',0,3);
INSERT INTO pots VALUES('E2','A','26HE2','2029-02-10',0,18);
INSERT INTO pots VALUES('E2','B','26HE2B','2029-02-10',0,18);
INSERT INTO pots VALUES('E3','A','26HE3','2029-03-30',0,25);
INSERT INTO pots VALUES('E3','B','26HE3B','2029-03-30',0,25);
CREATE TABLE histologies (
  exam TEXT NOT NULL REFERENCES examinations,
  lesion TEXT NOT NULL,
  histology TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (exam, lesion)
) STRICT, WITHOUT ROWID;
INSERT INTO histologies VALUES('E2','L1','{"dysplasia":"low grade","margin":"clear","type":"tubular adenoma"}',18);
CREATE TABLE recalls (
  number INTEGER PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people,
  exam TEXT NOT NULL REFERENCES examinations,
  advice INTEGER NOT NULL REFERENCES entries,
  action TEXT NOT NULL,
  ruleset TEXT NOT NULL,
  rule TEXT NOT NULL,
  clinician TEXT NOT NULL,
  risk INTEGER NOT NULL,
  state TEXT NOT NULL,
  open INTEGER NOT NULL CHECK (open IN (0, 1)),
  due TEXT NOT NULL,
  due_to TEXT NOT NULL,
  late_on TEXT NOT NULL,
  interval_days INTEGER NOT NULL CHECK (interval_days > 0),
  under_review INTEGER NOT NULL CHECK (under_review IN (0, 1)),
  entry INTEGER NOT NULL REFERENCES entries
) STRICT;
INSERT INTO recalls VALUES(8,'P2','E1',6,'surveillance colonoscopy','test-a','T-03','Dr Rao',4,'answered',0,'2029-03-10','2029-03-10','2029-05-07',1096,0,28);
INSERT INTO recalls VALUES(22,'P13','E2',19,'surveillance colonoscopy','test-a','T-03','Dr Rao',4,'opened',1,'2032-02-10','2032-02-10','2032-03-23',1095,0,22);
CREATE TABLE not_ready (
  recall INTEGER NOT NULL REFERENCES recalls,
  entry INTEGER NOT NULL REFERENCES entries,
  first TEXT NOT NULL,
  last TEXT NOT NULL,
  PRIMARY KEY (recall, entry)
) STRICT, WITHOUT ROWID;
INSERT INTO not_ready VALUES(8,12,'2029-03-05','2029-03-25');
CREATE TABLE rulesets (
  digest TEXT PRIMARY KEY,
  ruleset TEXT NOT NULL,
  edition TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT, WITHOUT ROWID;
INSERT INTO rulesets VALUES('sha256:f87924d9ef6c2b0a75daa0b8ab362915e914a2a27b2bc933898abdb62403c611','test-a','1.0.0',1);
CREATE TABLE inputs (
  entry INTEGER PRIMARY KEY REFERENCES entries,
  document TEXT NOT NULL REFERENCES documents,
  kind TEXT NOT NULL,
  source TEXT NOT NULL,
  line INTEGER NOT NULL,
  reason TEXT NOT NULL
) STRICT;
INSERT INTO inputs VALUES(24,'sha256:021fb596db81e6d02bf3d2586ee3981fe519f275c0ac9ca76bbcf2ebb4097d96','input refused','old.json',1,'this is not JSON: unexpected end of input; expected string literal');
CREATE TRIGGER entries_are_never_changed BEFORE UPDATE ON entries
BEGIN SELECT raise(ABORT, 'an entry is never changed'); END;
CREATE TRIGGER entries_are_never_deleted BEFORE DELETE ON entries
BEGIN SELECT raise(ABORT, 'an entry is never deleted'); END;
CREATE TRIGGER entries_are_appended BEFORE INSERT ON entries
WHEN new.sequence IS NOT (SELECT coalesce(max(sequence), 0) + 1 FROM entries)
  OR new.previous IS NOT coalesce((SELECT hash FROM entries ORDER BY sequence DESC LIMIT 1), zeroblob(32))
BEGIN SELECT raise(ABORT, 'only the next entry can be added'); END;
CREATE TRIGGER documents_are_never_changed BEFORE UPDATE ON documents
BEGIN SELECT raise(ABORT, 'a document is never changed'); END;
CREATE TRIGGER documents_are_never_deleted BEFORE DELETE ON documents
BEGIN SELECT raise(ABORT, 'a document is never deleted'); END;
CREATE TRIGGER documents_are_never_replaced BEFORE INSERT ON documents
WHEN EXISTS (SELECT 1 FROM documents WHERE digest = new.digest)
BEGIN SELECT raise(ABORT, 'a document is never replaced'); END;
CREATE INDEX people_gone ON people (person) WHERE status <> '';
CREATE INDEX examinations_of_person ON examinations (person, date);
CREATE INDEX examinations_without_outcome ON examinations (risk, date) WHERE outcome = '';
CREATE INDEX examinations_awaiting ON examinations (since) WHERE awaited > 0;
CREATE INDEX pots_by_accession ON pots (accession) WHERE accession <> '';
CREATE INDEX recalls_by_due ON recalls (due) WHERE open = 1;
CREATE INDEX recalls_by_late_date ON recalls (late_on) WHERE open = 1;
CREATE INDEX recalls_handed_over ON recalls (number) WHERE state = 'handed over';
CREATE INDEX recalls_of_person ON recalls (person);
CREATE INDEX recalls_of_examination ON recalls (exam);
CREATE INDEX inputs_by_document ON inputs (document);
COMMIT;
