//! Objects numbered without a gap, as a file asks for that was never changed after it was first written.

use std::collections::BTreeMap;

use lopdf::{Dictionary, Document, Object, ObjectId};

/// Takes these objects, to which nothing refers, out of the tree and closes the gaps. O(n log n).
///
/// lopdf has this too; it looks for each reference in a list of all that it has met.
pub(super) fn remove(tree: &mut Document, unused: &[ObjectId]) {
    for id in unused {
        tree.objects.remove(id);
    }
    let mut numbers = BTreeMap::new();
    let mut objects = BTreeMap::new();
    for ((old, object), new) in std::mem::take(&mut tree.objects).into_iter().zip(1..) {
        numbers.insert(old, (new, 0));
        objects.insert((new, 0), object);
    }
    for object in objects.values_mut() {
        refer(object, &numbers);
    }
    refer_all(&mut tree.trailer, &numbers);
    tree.max_id = objects.keys().next_back().map_or(0, |&(last, _)| last);
    tree.objects = objects;
}

fn refer(object: &mut Object, numbers: &BTreeMap<ObjectId, ObjectId>) {
    match object {
        Object::Reference(id) => {
            if let Some(&new) = numbers.get(id) {
                *id = new;
            }
        }
        Object::Array(parts) => parts.iter_mut().for_each(|part| refer(part, numbers)),
        Object::Dictionary(entries) => refer_all(entries, numbers),
        Object::Stream(stream) => refer_all(&mut stream.dict, numbers),
        _ => {}
    }
}

fn refer_all(entries: &mut Dictionary, numbers: &BTreeMap<ObjectId, ObjectId>) {
    for (_, entry) in entries.iter_mut() {
        refer(entry, numbers);
    }
}

#[cfg(test)]
mod tests {
    use lopdf::{Dictionary, Document, Object};

    use super::remove;

    #[test]
    fn references_follow_their_objects() {
        let mut tree = Document::with_version("1.7");
        let unused = tree.add_object(Dictionary::new());
        let leaf = tree.add_object(Object::from(7));
        let list = tree.add_object(vec![Object::from(leaf)]);
        tree.trailer.set("Root", list);
        remove(&mut tree, &[unused]);
        assert_eq!(tree.trailer.get(b"Root").unwrap().as_reference().unwrap(), (2, 0));
        let list = tree.get_object((2, 0)).unwrap().as_array().unwrap();
        assert_eq!(tree.get_object(list[0].as_reference().unwrap()).unwrap(), &Object::from(7));
        assert_eq!((tree.max_id, tree.objects.len()), (2, 2));
    }
}
