//! What the example says: its places, products and people, its tasks and reasons.

use velamen_core::demo::Phrases;

pub const PHRASES: Phrases = Phrases {
    second_phone: "Teléfono de la mesa",
    places: [
        "Invernadero fresco, bancada izquierda",
        "Invernadero fresco, bancada derecha",
        "Invernadero templado, bancada",
        "Invernadero templado, estante",
        "Bancada a la lluvia",
        "Aparte, junto a la puerta",
    ],
    products: [
        ("Cobre en polvo 50, de ejemplo", "hidróxido de cobre"),
        ("Azufre en polvo 80, de ejemplo", "azufre"),
        ("Fosfonato líquido 40, de ejemplo", "fosfonato de potasio"),
        (
            "Jabón potásico, de ejemplo",
            "sales potásicas de ácidos grasos",
        ),
    ],
    buyers: [
        "Visita en la puerta",
        "Puesto del mercado",
        "Enviado por correo",
        "Mesa de trueque",
    ],
    look_for_labels: "Buscar etiquetas que faltan",
    wash_pots: "Lavar las macetas de debajo de la bancada",
    order_bark: "Pedir corteza gruesa",
    bath_for_spots: "Baño para las macetas con manchas en las hojas",
    weather: "No antes de que cambie el tiempo",
    another_pot: "Se quería otra maceta",
    behind_the_post: "La otra estaba detrás del poste",
    grown_together: "Tres macetas se han hecho una sola mata",
    splitting: "Las macetas se rajan: no pueden esperar a su temporada",
};
