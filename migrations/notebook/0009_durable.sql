-- Seals: digests of what neither the log nor a rebuild can prove, so that a bit
-- turned on the disk is never taken for what was kept.

-- Of a kept answer: eight bytes over all but the value, eight over the value. One
-- without a seal is worked out anew.
ALTER TABLE answer ADD COLUMN seal BLOB;

-- Of a setting's name and value. One without a seal is taken as it is.
ALTER TABLE setting ADD COLUMN seal BLOB;

-- Whoever changes a value without sealing it leaves it without a seal.
CREATE TRIGGER setting_changed AFTER UPDATE OF value ON setting WHEN NEW.seal IS OLD.seal
BEGIN
    UPDATE setting SET seal = NULL WHERE name = NEW.name;
END;
