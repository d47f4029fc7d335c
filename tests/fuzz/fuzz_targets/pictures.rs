#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| quiltpath_tests::fuzz::run("pictures", data));
